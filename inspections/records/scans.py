"""What does a scanned label say?

GS1 element strings (as a scanner gives them or as printed in brackets) and GS1 Digital Link addresses are read
by the biip library; here its fields become particulars of a label. Rules that decide what a date means are in
``trade.gs1``. The phone reads the same text without a signal (``camera/scan_text.ts``); both are held to
``fixtures/vectors/scans.json``.

Codes of ``UnusableScan``
-------------------------
SCAN-01  the text cannot be read as GS1 text
SCAN-02  a check digit is wrong: part of the code was misread
SCAN-03  identifiers stand together that may not
Warnings in the result: ``no_product_key`` (CV-8-108), ``lost_separator`` (CV-8-83), ``short_key`` (CV-8-125).
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from biip import ParseConfig, ParseError
from biip.gs1_digital_link_uris import GS1DigitalLinkURI
from biip.gs1_messages import GS1Message

from inspections.trade.gs1 import UnusableDate, gs1_check_digit, gs1_date, has_swallowed_date
from inspections.trade.quantities import Unusable
from inspections.trade.species import species_code

_CONFIG = ParseConfig(gs1_element_strings_verify_date=False)
_PREFIX = re.compile(r"\](?:C1|d[12]|Q[13]|e0|E0)")
_LINK = re.compile(r"https?://[^ ]+", re.IGNORECASE)
_BRACKETED = re.compile(r"\(([0-9]{2,4})\)([^(]+)")
_PLAIN_NUMBER = re.compile(r"(?:[0-9]{8}|[0-9]{12,14})\Z")
_MASS = re.compile(r"(31|32|33|34)([03])([0-5])\Z")
_CHECKED = {"00": 18, "01": 14, "02": 14, "410": 13, "412": 13, "414": 13}
_DATES = {"11": "production_date", "13": "pack_date", "15": "best_before", "17": "use_by", "7006": "frozen_on"}
_TEXTS = {
    "01": "gtin",
    "02": "content_gtin",
    "00": "sscc",
    "10": "lot",
    "21": "serial",
    "7009": "gear",
    "400": "order_number",
}
_METHODS = {"01": "caught", "02": "caught_freshwater", "03": "farmed"}
_PRODUCT_KEYS = ("00", "01", "02", "03", "8006", "8026")
_COUNTRIES: dict[str, str] = json.loads(
    (Path(__file__).parent.parent / "trade" / "data" / "countries.json").read_text(encoding="utf-8")
)["alpha_2"]


class UnusableScan(Unusable):
    """Scanned text that cannot be used; nothing of it is filled in."""


def _from_brackets(text: str) -> str | None:
    """Printed text with brackets as a raw element string; None when it is not all in brackets."""
    parts = _BRACKETED.findall(text)
    if "".join(f"({ai}){value}" for ai, value in parts) != text or not parts:
        return None
    return "\x1d".join(ai + value for ai, value in parts)


def _fields(text: str) -> list[tuple[str, str]]:
    """Identifier and value pairs, in the order of the text."""
    if not text:
        raise UnusableScan("SCAN-01")
    prefix = _PREFIX.match(text)
    rest = text[prefix.end() :] if prefix else text
    if _PLAIN_NUMBER.match(rest):
        return [("01", rest.rjust(14, "0"))]
    try:
        if _LINK.match(rest):
            return [(one.ai.ai, one.value) for one in GS1DigitalLinkURI.parse(rest, config=_CONFIG).element_strings]
        raw = _from_brackets(rest) if rest.startswith("(") else rest
        message = GS1Message.parse(raw.lstrip("\x1d") if raw else "", config=_CONFIG)
    except ParseError as problem:
        raise UnusableScan("SCAN-01") from problem
    return [(one.ai.ai, one.value) for one in message.element_strings]


def _check(pairs: list[tuple[str, str]]) -> None:
    """Refuse wrong check digits and identifiers that may not stand together (CV-8-31, 32, 45, 50)."""
    if not pairs or not all(value for _, value in pairs):
        raise UnusableScan("SCAN-01")
    for ai, value in pairs:
        if ai in _CHECKED and (
            len(value) != _CHECKED[ai] or not value.isdigit() or gs1_check_digit(value[:-1]) != int(value[-1])
        ):
            raise UnusableScan("SCAN-02", {"ai": ai})
    names = {ai for ai, _ in pairs}
    for first, second in (("01", "02"), ("01", "37"), ("01", "255"), ("02", "03"), ("422", "426")):
        if first in names and second in names:
            raise UnusableScan("SCAN-03", {"ai": first, "other": second})
    weights = sorted(ai for ai in names if ai.startswith("310"))
    if len(weights) > 1:  # only one net weight to an item (CV-8-45)
        raise UnusableScan("SCAN-03", {"ai": weights[0], "other": weights[1]})


def _mass(ai: str, value: str) -> dict[str, str]:
    """A weight as it would be entered: digits with the point put in, kg or lb."""
    decimals = int(ai[3])
    digits = value.lstrip("0").rjust(decimals + 1, "0")
    entered = f"{digits[:-decimals]}.{digits[-decimals:]}" if decimals else digits
    return {"entered": entered, "unit": "kg" if ai[1] in "13" else "lb"}


def _blank() -> dict[str, Any]:
    texts = dict.fromkeys((*_TEXTS.values(), *_DATES.values(), "harvest_from", "harvest_to"), "")
    rest: dict[str, Any] = {"net": None, "gross": None, "count": None, "origin": "", "processed_in": []}
    return {**texts, **rest, "species_code": "", "method": "", "approval": "", "fields": {}, "warnings": []}


def _date(ai: str, digits: str, current_year: int) -> str:
    try:
        return gs1_date(ai, digits, current_year)
    except UnusableDate as problem:
        raise UnusableScan("SCAN-01", {"ai": ai}) from problem


def _country(code: str) -> str:
    return _COUNTRIES.get(code, code)


#: Fields that hold one thing: where it belongs, and how it is read.
_SINGLE: dict[str, tuple[str, Callable[[str], Any]]] = {
    "30": ("count", int),
    "37": ("count", int),
    "422": ("origin", _country),
    "423": ("processed_in", lambda value: [_country(value[i : i + 3]) for i in range(0, len(value), 3)]),
    "7008": ("species_code", species_code),
    "7010": ("method", lambda value: _METHODS.get(value, "")),
}


def _fill(found: dict[str, Any], ai: str, value: str, current_year: int) -> None:
    """Put one field where it belongs; what has no place stays in ``fields`` (CV-8-36, CV-8-61)."""
    if ai in _TEXTS:
        found[_TEXTS[ai]] = value
    elif ai in _DATES:
        found[_DATES[ai]] = _date(ai, value, current_year)
    elif ai == "7007":
        found["harvest_from"] = _date(ai, value[:6], current_year)
        found["harvest_to"] = _date(ai, value[6:] or value[:6], current_year)
    elif ai == "7003":
        _date(ai, value[:6], current_year)  # kept in fields; day 00 is no day here (CV-8-53)
    elif ai in _SINGLE:
        name, read = _SINGLE[ai]
        found[name] = read(value)
    elif ai.startswith("703"):
        found["approval"] = value[3:]
    elif (mass := _MASS.match(ai)) and mass.group(2) == "0":
        found["net" if mass.group(1) in ("31", "32") else "gross"] = _mass(ai, value)


def particulars_from_scan(text: str, current_year: int) -> dict[str, Any]:
    """What a scanned text says about the goods.

    Parameters
    ----------
    text : str
        As scanned, with or without a carrier prefix; printed text in brackets; or a Digital Link address.
    current_year : int
        Year of reading, for two-digit years (CV-8-78).

    Returns
    -------
    dict
        gtin, content_gtin, sscc, lot, serial, count, net, gross, production_date, pack_date, frozen_on,
        harvest_from, harvest_to, best_before, use_by (YYYY-MM-DD, or YYYY-MM for an unknown day), origin
        (ISO alpha-2, or the three digits when the country is not in the list), processed_in, species_code,
        gear, method, approval, order_number, fields (identifier to raw value), warnings.

    Raises
    ------
    UnusableScan
        SCAN-01, SCAN-02, SCAN-03.
    """
    pairs = _fields(text)
    _check(pairs)
    found = _blank()
    for ai, value in pairs:
        found["fields"][ai] = value
        _fill(found, ai, value, current_year)
    names = {ai for ai, _ in pairs}
    if found["lot"] and not any(key in names for key in _PRODUCT_KEYS):
        found["warnings"].append("no_product_key")
    if has_swallowed_date(found["lot"]):
        found["warnings"].append("lost_separator")
    if _LINK.match(text) and re.search(r"/01/[0-9]{8,13}(?:[/?#]|\Z)", text):
        found["warnings"].append("short_key")
    return found
