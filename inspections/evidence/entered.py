"""An entry of the document in words: readings as they were typed, answers to plain checks by their row."""
from typing import Any

from inspections.trade.registry import CHECKS, Check
from inspections.trade.wording import answer_word

UNITS = {"C": "°C", "F": "°F", "percent": "%"}


def entered(reading: dict[str, Any] | None) -> str:
    """A reading as it was entered, with its unit."""
    if not reading:
        return ""
    return f"{reading.get('entered', '')} {UNITS.get(reading.get('unit', ''), reading.get('unit', ''))}".strip()


def answer_shown(check: Check, holder: dict[str, Any]) -> str:
    """What a plain check was answered with; "" where it was not. ``holder`` is the vehicle, carton or label."""
    value = _at(holder, check.at)
    if value is None or value == "":
        return ""
    if check.type in ("reading", "part"):
        return " of ".join(filter(None, [entered(value), entered(_at(holder, check.of)) if check.of else ""]))
    if check.type == "flags":
        signs = [value] if isinstance(value, str) else value
        return ", ".join(answer_word(check.name, one) for one in signs) or answer_word(check.name, check.none or "none")
    if check.type == "pieces":
        looked_at = holder.get("looked_at")
        return f"{value} of {looked_at} prawns" if looked_at else f"{value} prawns"
    return answer_word(check.name, value) if check.choices else str(value)


def answered(name: str, holder: dict[str, Any]) -> str:
    """What a check was answered with, in the first way in which it was made."""
    return next(filter(None, (answer_shown(check, holder) for check in CHECKS if check.answers == name)), "")


def _at(holder: Any, path: str) -> Any:
    for key in path.split("."):
        holder = (holder or {}).get(key)
    return holder
