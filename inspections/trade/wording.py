"""Which words go on the screen and on the docket?

Method: one file of sentences (``wording_en.json``) serves phone, server and evidence; a sentence has places
in braces which are filled with shown numbers. Numbers are rounded here and nowhere else, half away from
zero on their shortest decimal text, so that both languages show the same digits. Docket words say what was
measured and what it did not meet, never why or by whose will (CV-12-47).
"""

from __future__ import annotations

import json
import re
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Any

_PLACE = re.compile(r"\{([a-z_]+)\}")
# A hyphen that is a sign: right before digits, after nothing, a blank or an opening mark. One in a date, a range
# or a code has something before it.
_SIGN = re.compile(r"(^|[ \u00a0\n(“])-(?=[.,]?[0-9])")
_DATA = Path(__file__).parent / "data"
# Unit to (decimals, text behind the number).
_SHOWN_UNITS = {
    "C": (1, " °C"),
    "degrees": (1, " °C"),
    "share": (1, " %"),
    "percent": (1, " %"),
    "points": (1, " percentage points"),
    "g": (1, " g"),
    "kg": (2, " kg"),
    "per_lb": (1, " to the pound"),
    "per_kg": (1, " per kg"),
    "ratio": (2, ""),
    "score": (0, ""),
    "pieces": (0, " prawns"),
    "cartons": (0, ""),
    "days": (0, " days"),
    "readings": (0, ""),
}


def _words() -> dict[str, Any]:
    with open(_DATA / "wording_en.json", encoding="utf-8") as file:
        table: dict[str, Any] = json.load(file)
    return table


WORDS: dict[str, Any] = _words()


def shown(value: float, decimals: int) -> str:
    """A number as text with so many decimals, half away from zero on its shortest decimal text.

    Parameters
    ----------
    value : float
        Finite.
    decimals : int
        0 to 6.

    Returns
    -------
    str
        ASCII digits, decimal point, a minus sign for negatives; never "-0".

    Examples
    --------
    >>> shown(-0.25, 1), shown(2.675, 2), shown(-0.04, 1)
    ('-0.3', '2.68', '0.0')
    """
    step = Decimal(1).scaleb(-decimals)
    text = format(Decimal(repr(value + 0.0)).quantize(step, rounding=ROUND_HALF_UP), "f")
    return text[1:] if text.startswith("-") and not re.search("[1-9]", text) else text


def shown_measure(value: float, unit: str) -> str:
    """A measured value with its unit in words; a share is shown in percent, whole grams without a decimal.

    Examples
    --------
    >>> shown_measure(0.15, "share"), shown_measure(-9.5, "C")
    ('15.0 %', '-9.5 °C')
    """
    decimals, behind = _SHOWN_UNITS[unit]
    text = shown(value * 100.0 if unit == "share" else value, decimals)
    return (text.removesuffix(".0") if unit == "g" else text) + behind


def typeset(text: str) -> str:
    """A sentence for the eye: numbers below zero with a true minus sign (U+2212), all else as it is.

    Judgements, sealed records and files keep the hyphen that a keyboard types; every screen and page shows them
    through this. Source: Unicode Standard, U+2212 MINUS SIGN, as the SI Brochure (9th ed., 5.4) and ISO 80000-1
    print numbers (both from memory).

    Examples
    --------
    >>> typeset("Lot 7-12: -9.5 °C (-12.0 °C or colder)")
    'Lot 7-12: −9.5 °C (−12.0 °C or colder)'
    """
    return _SIGN.sub("\\1−", text)


def typeset_sum(text: str) -> str:
    """A sum for the eye: what is taken away is, too, with a true minus sign.

    Examples
    --------
    >>> typeset_sum("(14.9 - 32) x 5 / 9 = -9.5 °C")
    '(14.9 − 32) x 5 / 9 = −9.5 °C'
    """
    return typeset(text).replace(" - ", " − ")


def listed(words: list[str]) -> str:
    """Words as a list for reading: "a", "a and b", "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {WORDS['and']} {words[-1]}"


def filled(template: str, places: dict[str, str]) -> str:
    """A sentence with its places filled; a place without a value stays visible in braces."""
    return _PLACE.sub(lambda match: places.get(match.group(1), match.group(0)), template)


def word(group: str, code: str) -> str:
    """The word for a code of a group; the code itself when the file has none."""
    found: str = WORDS[group].get(code, code)
    return found


def answer_word(check: str, value: str) -> str:
    """A choice of a plain check in words for a page.

    Examples
    --------
    >>> answer_word("foreign_matter", "hazard"), answer_word("frost", "heavy"), answer_word("state", "part_cooked")
    ('found, may hurt', 'heavy', 'part-cooked')
    """
    own = WORDS["checks"].get(check, {})
    label = own.get("choices", WORDS.get(check, {})).get(value, value)
    return str(own.get("found", {}).get(value, label if check in WORDS else label.lower()))


def counted(number: int, group: str) -> str:
    """A number with its noun in the right form, e.g. ``"1 carton"``, ``"2 cartons"``."""
    forms = WORDS["nouns"][group]
    return f"{number} {forms[0] if number == 1 else forms[1]}"
