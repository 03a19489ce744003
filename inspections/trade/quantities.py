"""What did the receiver enter, in grams, degrees Celsius, pieces or percent?

An entry keeps its own text and unit (CV-0-04); everything else is derived here, by one
explicit ASCII pattern, so that phone and server read the same characters as the same number.
Does not hold for grouped thousands ("10.000,5"): such an entry is refused, not guessed.
Source of the factors: international avoirdupois pound, 0.45359237 kg exactly (1959 agreement).

Errors: ``Unusable`` (code, facts)
    ├── ``UnusableReading``   an entry that can't be read or that no scale or probe can show
    ├── ``UnusableGrade``     a size grade that can't be read (counts)
    └── ``UnusablePlan``      a sampling plan that does not exist for the lot (sampling)
"""

import re
from collections.abc import Mapping
from typing import Any

GRAMS_PER_LB = 453.59237
GRAMS_PER_OZ = 28.349523125
MAX_MASS_G = 100_000.0
MIN_PRODUCT_C = -90.0
MAX_PRODUCT_C = 60.0
MAX_PIECES = 2000

# Comma or point, one of them once; a typographic minus is what some keyboards give.
_DECIMAL = re.compile(r"[ \t]*([+\u2212-]?)([0-9]{1,7}(?:[.,][0-9]{0,6})?|[.,][0-9]{1,6})[ \t]*\Z")
_COMMA_THOUSANDS = re.compile(r"[ \t]*[0-9]{1,3},[0-9]{3}[ \t]*\Z")
_GRAMS = {"g": 1.0, "kg": 1000.0, "lb": GRAMS_PER_LB, "oz": GRAMS_PER_OZ}


class Unusable(ValueError):
    """Something entered that the judgement can't use; carries a sentence code and facts.

    Parameters
    ----------
    code : str
        Key of the sentence in ``wording_en.json``, e.g. ``"WEIGHT-02"``.
    facts : mapping
        Values for the placeholders of that sentence.
    """

    def __init__(self, code: str, facts: Mapping[str, Any] | None = None) -> None:
        super().__init__(code)
        self.code = code
        self.facts = dict(facts or {})


class UnusableReading(Unusable):
    """An entry that can't be read, or that no scale, probe or count can show."""


class UnusableGrade(Unusable):
    """A size grade that can't be read."""


class UnusablePlan(Unusable):
    """A sampling plan that does not exist for the lot."""


def parse_decimal(text: str) -> float:
    """The number that a receiver wrote, with a decimal comma or point.

    Parameters
    ----------
    text : str
        Optional sign, up to 7 digits, optional comma or point and up to 6 digits.

    Returns
    -------
    float
        The nearest double; never minus zero.

    Raises
    ------
    UnusableReading
        READ-01 nothing entered; READ-02 not a number as written.

    Examples
    --------
    >>> parse_decimal("-17,2")
    -17.2
    """
    if not isinstance(text, str) or not text.strip(" \t"):
        raise UnusableReading("READ-01")
    match = _DECIMAL.match(text)
    if match is None:
        raise UnusableReading("READ-02", {"entered": text})
    digits = match.group(2).replace(",", ".")
    value = float(digits)
    return (-value if match.group(1) in ("-", "\u2212") else value) + 0.0


def to_grams(reading: Mapping[str, Any]) -> float:
    """A weight in grams, from g, kg, lb or oz.

    Parameters
    ----------
    reading : mapping
        ``{"entered": "10,2", "unit": "kg"}``.

    Returns
    -------
    float
        g, above 0 and at most 100 000.

    Raises
    ------
    UnusableReading
        READ-01 to READ-04; READ-05 grams written with a comma before three digits, which could
        be thousands; WEIGHT-01 not above zero; WEIGHT-02 above 100 000 g.

    Examples
    --------
    >>> to_grams({"entered": "5", "unit": "lb"})       # CV-3-24
    2267.96185
    """
    entered, unit = _entry(reading, _GRAMS)
    if unit == "g" and _COMMA_THOUSANDS.match(entered):
        raise UnusableReading("READ-05", {"entered": entered})
    mass_g = parse_decimal(entered) * _GRAMS[unit]
    if not mass_g > 0:
        raise UnusableReading("WEIGHT-01", {"entered": entered, "unit": unit})
    if mass_g > MAX_MASS_G:
        raise UnusableReading("WEIGHT-02", {"entered": entered, "unit": unit, "max_g": MAX_MASS_G})
    return mass_g


def to_grams_or_zero(reading: Mapping[str, Any]) -> float:
    """A weight in grams that may be 0: nothing was found to weigh; errors as ``to_grams``.

    >>> to_grams_or_zero({"entered": "0", "unit": "g"})
    0.0
    """
    entered, unit = _entry(reading, _GRAMS)
    return 0.0 if parse_decimal(entered) == 0 else to_grams({"entered": entered, "unit": unit})


def to_celsius(reading: Mapping[str, Any]) -> float:
    """A temperature in °C, from C or F.

    Parameters
    ----------
    reading : mapping
        ``{"entered": "-0.4", "unit": "F"}``.

    Returns
    -------
    float
        °C, -90 to +60, end points in.

    Raises
    ------
    UnusableReading
        READ-01 to READ-04; TEMP-01 colder than -90 °C; TEMP-02 warmer than +60 °C.

    Examples
    --------
    >>> to_celsius({"entered": "-0,4", "unit": "F"})
    -18.0
    """
    entered, unit = _entry(reading, ("C", "F"))
    value = parse_decimal(entered)
    celsius = value if unit == "C" else celsius_from_fahrenheit(value)
    if celsius < MIN_PRODUCT_C:
        raise UnusableReading("TEMP-01", {"entered": entered, "unit": unit, "min_c": MIN_PRODUCT_C})
    if celsius > MAX_PRODUCT_C:
        raise UnusableReading("TEMP-02", {"entered": entered, "unit": unit, "max_c": MAX_PRODUCT_C})
    return celsius


def celsius_from_fahrenheit(fahrenheit: float) -> float:
    """°F to °C, multiplied before it is divided so that -0.4 °F is -18 °C to the last bit.

    >>> celsius_from_fahrenheit(5.0)
    -15.0
    """
    return (fahrenheit - 32.0) * 5.0 / 9.0 + 0.0


def to_percent(reading: Mapping[str, Any]) -> float:
    """A share in percent, 0 to 100, end points in.

    Raises
    ------
    UnusableReading
        READ-01 to READ-04; PERCENT-01 outside 0 to 100.
    """
    entered, _ = _entry(reading, ("percent",))
    value = parse_decimal(entered)
    if not 0.0 <= value <= 100.0:
        raise UnusableReading("PERCENT-01", {"entered": entered})
    return value


def to_pieces(value: Any) -> int:
    """A number of prawns: a whole number, 1 to 2000.

    Parameters
    ----------
    value : int, whole float, str of digits, or a reading in pieces
        As it stands in the document.

    Raises
    ------
    UnusableReading
        READ-01 to READ-04; COUNT-01 not a whole number from 1 to 2000.
    """
    if isinstance(value, Mapping):
        value = _entry(value, ("pieces",))[0]
    if isinstance(value, str):
        value = parse_decimal(value)
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise UnusableReading("COUNT-01", {"max_pieces": MAX_PIECES})
    if not 1 <= value <= MAX_PIECES or value != int(value):
        raise UnusableReading("COUNT-01", {"max_pieces": MAX_PIECES})
    return int(value)


def _entry(reading: Any, units: Any) -> tuple[str, str]:
    """Text and unit of an entry, the unit being one of ``units``."""
    if not isinstance(reading, Mapping):
        raise UnusableReading("READ-01")
    entered, unit = reading.get("entered"), reading.get("unit")
    if not isinstance(entered, str):
        raise UnusableReading("READ-01")
    if unit not in ("g", "kg", "lb", "oz", "C", "F", "pieces", "percent"):
        raise UnusableReading("READ-03", {"entered": entered})
    if unit not in units:
        raise UnusableReading("READ-04", {"entered": entered, "unit": unit})
    return entered, unit
