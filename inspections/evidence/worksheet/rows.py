"""One check against its limit, as a row of the worksheet: number, comparison, limit, source, answer.

A row is made from the sealed number and the limit in force whether the check held or not, so that what was fine
can be gone over as well. What a fault leads to follows from its severity and kind (``trade/severity_ranking``).
"""
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from decimal import Decimal
from typing import Any

from inspections.evidence.worksheet.earlier import FIRST_TO_REACH, led_to
from inspections.evidence.worksheet.numbers import Number, exact, percent_of, written, written_apart
from inspections.evidence.worksheet.words import TERMS, term
from inspections.trade.answer import is_fine
from inspections.trade.limits import Limit
from inspections.trade.reasons import where_words
from inspections.trade.severity_ranking import effect_of
from inspections.trade.whose import limit_said, whose_limit
from inspections.trade.wording import word

WITHIN, BEYOND, NOT_CHECKED, CANNOT_TELL = "within", "beyond", "not_checked", "cannot_tell"
UNITS = {"C": "°C", "share": "%", "percent": "%", "points": "%", "g": "g", "per_lb": "to the pound", "per_kg": "per kg",
         "pieces": "prawns", "days": "days", "cartons": "cartons"}

@dataclass(frozen=True)
class Row:
    """A check as printed. ``code`` is the finding's code where the check is past its limit."""

    check: str
    name: str
    number: str
    unit: str
    comparison: str
    limit: str
    state: str
    severity: str
    code: str
    source: str
    words: str
    edition: str

    def leads_to(self, version: int) -> str:
        """What the finding leads to by the edition that judged it, as a key of the words ``leads_to``."""
        if self.state != BEYOND or not self.code:
            return ""
        later = version >= FIRST_TO_REACH
        return effect_of(self.code, self.severity) if later else led_to(self.code, self.severity)

    def to_json(self, version: int) -> dict[str, str]:
        """The row with its answer in words."""
        led = self.leads_to(version)
        return {**asdict(self), "answer": word("check", self.state), "severity": word("severity", self.severity),
                "effect": led, "leads_to": term("leads_to", led) if led else ""}


def name_of(check: str) -> str:
    """The name of a check in words."""
    return TERMS["checks"].get(check) or word("not_checked", check)


def measured_row(check: str, value: Number, limit: Limit, code: str, edition: str = "") -> Row:
    """A number against a bound; shares are printed in percent."""
    bound = 0.0 if limit.bound is None else limit.bound
    state = WITHIN if is_fine(float(value), bound, limit.sense) else BEYOND
    pair = (percent_of(value), percent_of(bound)) if limit.unit == "share" else (exact(value), exact(bound))
    (number,), (told,) = written_apart(pair[:1], pair[1:])
    return _row(check, number, limit.unit, TERMS["comparison"][limit.sense], told, state, limit, code, edition)


def word_row(check: str, found: str, comparison: str, wanted: str, state: str, limit: Limit, code: str) -> Row:
    """A word seen against the word that is fine."""
    return _row(check, found, "", TERMS["comparison"][comparison], wanted, state, limit, code, "")


def range_row(check: str, texts: tuple[str, str], unit: str, state: str, limit: Limit, code: str) -> Row:
    """A number against a range given in words."""
    number, limits = texts
    return _row(check, number, unit, "", limits, state, limit, code, "")


def open_row(check: str, state: str = NOT_CHECKED, found: str = "", words: str = "") -> Row:
    """A check that was not made, or that could not be answered."""
    return Row(check, name_of(check), found, "", "", "", state, "", "", "", words, "")


def reason_row(reason: dict[str, Any]) -> Row:
    """A finding of the sealed judgement that no other row shows, from its own numbers."""
    bound, measured = reason["bound"], reason["measured"]
    number = "" if measured is None else written(_shown(measured, reason["unit"]))
    limit = "" if bound is None else written(_shown(bound, reason["unit"]))
    comparison = TERMS["comparison"].get(reason["sense"] or "", "")
    text = reason["text"].removeprefix(where_words(reason["carton"]))
    source, words = _based(reason["limit"], reason["basis"], judged=reason.get("whose", ""))
    return Row("", text, number, UNITS.get(reason["unit"] or "", ""), comparison, limit, BEYOND, reason["severity"],
               reason["code"], source, words, (reason["basis"] or {}).get("edition", ""))


def effect_in(reason: dict[str, Any], version: int) -> str:
    """What a sealed reason led to by its edition."""
    return reason["leads_to"] if version >= FIRST_TO_REACH else led_to(reason["code"], reason["severity"])


def in_words(rows: Iterable[Row], version: int) -> list[dict[str, str]]:
    """Rows as JSON, by the edition of the judgement."""
    return [row.to_json(version) for row in rows]


def _shown(value: Number, unit: str | None) -> Decimal:
    return percent_of(value) if unit == "share" else exact(value)


def _row(check: str, number: str, unit: str, comparison: str, told: str, state: str, limit: Limit, code: str,
         edition: str) -> Row:
    edition = edition or getattr(limit.basis, "edition", "")
    source, words = _based(limit.code, limit.basis.to_json(), is_own=edition == "own")
    name = name_of(limit.code) if limit.code in TERMS["checks"] else name_of(check)
    return Row(check, name, number, UNITS.get(unit, ""), comparison, told, state, limit.severity,
               code if state == BEYOND else "", source, words, edition)


def _based(code: str, basis: dict[str, Any] | None, *, is_own: bool = False, judged: str = "") -> tuple[str, str]:
    """Whose limit it is with its source, and the line that says what it is for."""
    if not basis:
        return "", ""
    return limit_said(code, basis, whose_limit(code, basis, is_own=is_own, judged=judged)), basis["words"]
