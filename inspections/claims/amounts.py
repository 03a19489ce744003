"""What is claimed for what fell short, exactly, and with the sum that anybody can do again.

Each ground multiplies what is shown beside it and nothing else: weights and prices are taken as they are printed, so
whoever multiplies the printed figures gets the printed amount. All in ``Decimal``; rounded once, at the end of each
item (``currencies``). Short weight is CV-4-09's sum: cartons x mean shortage x price. Another grade is worth its own
price; lower quality and uneven sizes take percent off, a start for talking (common practice, no source).
Does not hold: for tax and freight, which stand in the credit note.
"""
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation

from inspections.claims.currencies import decimals_of, rounded, written
from inspections.errors import Unprocessable
from inspections.messages import message

LARGEST = Decimal(10) ** 9


_BY_WEIGHT = ("kg", "price")
#: Ground of a claim -> the figures that it is reckoned from; the sum in words is the message ``claims-sum-…``.
GROUNDS: dict[str, tuple[str, ...]] = {
    "refused": ("cartons", "net_kg", "price"),
    "short_cartons": ("cartons", "net_kg", "price"),
    "short_weight": ("cartons", "units", "declared_g", "found_g", "price"),
    "short_units": _BY_WEIGHT,
    "label_weight": _BY_WEIGHT,
    "grade": ("kg", "price", "price_delivered"),
    "quality": ("kg", "price", "percent"),
    "uniformity": ("kg", "price", "percent"),
    "sorting": _BY_WEIGHT,
    "other": ("amount",),
}
_PRICES = ("price", "price_delivered", "amount")
_COUNTED = ("cartons", "units")


def ground_name(ground: str) -> str:
    """What a ground is called."""
    return message(f"claims-ground-{ground}")


def input_name(name: str) -> str:
    """What a figure is called, with its unit."""
    return message(f"claims-input-{name}")


def figure(value: object, name: str) -> Decimal:
    """A figure as it was entered: zero or more, below a thousand million, with at most 4 decimals.

    Raises
    ------
    Unprocessable
        CLAIM-NUMBER.
    """
    text = str(value).strip()
    try:
        number = Decimal(text) if text.isascii() and len(text) <= 20 and "_" not in text else Decimal("NaN")
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or not 0 <= number < LARGEST or number.as_tuple().exponent < -4:
        raise Unprocessable("CLAIM-NUMBER", value=text[:40], name=input_name(name))
    return number


def unrounded(ground: str, figures: Mapping[str, Decimal]) -> Decimal | None:
    """The amount of one item before rounding; None while a figure is not known.

    Parameters
    ----------
    ground : str
        A name of ``GROUNDS``.
    figures : mapping of str to Decimal
        By the ground's ``inputs``; weights in kg or g, prices per kg.

    Raises
    ------
    Unprocessable
        CLAIM-GROUND.

    Examples
    --------
    >>> unrounded("short_weight", {"cartons": Decimal(40), "units": Decimal(1), "declared_g": Decimal(10000),
    ...                            "found_g": Decimal(9620), "price": Decimal("14.50")})        # CV-4-09
    Decimal('220.400')
    """
    if ground not in GROUNDS:
        raise Unprocessable("CLAIM-GROUND", value=str(ground)[:40])
    if any(name not in figures for name in GROUNDS[ground]):
        return None
    of = figures.__getitem__
    match ground:
        case "refused" | "short_cartons":
            amount = of("cartons") * of("net_kg") * of("price")
        case "short_weight":
            short_g = max(of("declared_g") - of("found_g"), Decimal(0))
            amount = of("cartons") * of("units") * short_g / 1000 * of("price")
        case "grade":
            amount = of("kg") * max(of("price") - of("price_delivered"), Decimal(0))
        case "quality" | "uniformity":
            amount = of("kg") * of("price") * of("percent") / 100
        case "other":
            amount = of("amount")
        case _:
            amount = of("kg") * of("price")
    return amount


def sum_words(ground: str, figures: Mapping[str, Decimal], currency: str) -> str:
    """The sum of one item with its result, as it is printed; what is not known is named.

    >>> sum_words("refused", {"cartons": Decimal(3), "net_kg": Decimal(10), "price": Decimal("14.5")}, "AUD")
    '3 cartons × 10 kg × AUD 14.50 per kg = AUD 435.00'
    >>> sum_words("refused", {"cartons": Decimal(1), "net_kg": Decimal(10), "price": Decimal("14.5")}, "AUD")
    '1 carton × 10 kg × AUD 14.50 per kg = AUD 145.00'
    """
    amount = unrounded(ground, figures)
    shown = {name: _shown(name, figures.get(name), currency) for name in GROUNDS[ground]}
    result = f" = {written(amount, currency)}" if amount is not None else ""
    return message(f"claims-sum-{ground}", **shown) + result


def total(amounts: list[Decimal], currency: str) -> Decimal:
    """The sum of items that are rounded already."""
    return rounded(sum(amounts, Decimal(0)), currency)


def plain(number: Decimal) -> str:
    """A figure without empty decimals: ``10``, ``9.62``."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _shown(name: str, number: Decimal | None, currency: str) -> str:
    if number is None:
        return message("claims-sum-unknown", name=input_name(name))
    if name in _COUNTED:
        is_whole = number == number.to_integral_value()
        return message(f"claims-sum-{name}" if is_whole else f"claims-sum-part-{name}",
                       count=int(number) if is_whole else plain(number))
    if name not in _PRICES:
        return plain(number)
    # A price is printed with every figure that it is reckoned with, and never shorter than its currency's decimals.
    whole, _, part = plain(number).partition(".")
    part = part.ljust(decimals_of(currency), "0")
    return f"{currency} {int(whole):,}" + (f".{part}" if part else "")
