"""How is a number written, so that a comparison by hand comes out as it did?

Four decimals are written, or as many more as it takes to keep each number on its own side of each bound. A
number that is still not apart is written as it is kept.
"""
from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Decimal

USUAL_DECIMALS, MOST_DECIMALS = 4, 15
Number = int | float | Decimal


def exact(value: Number) -> Decimal:
    """A number in its shortest decimal form."""
    return value if isinstance(value, Decimal) else Decimal(repr(value))


def percent_of(share: Number) -> Decimal:
    """A share as a percentage, without the last-bit noise of multiplying a binary fraction by 100."""
    return exact(share) * 100


def written(value: Number, decimals: int = USUAL_DECIMALS) -> str:
    """A number with at most so many decimals, half away from zero, without empty ones.

    Examples
    --------
    >>> written(-9.5), written(1962.33333), written(20), written(-0.00001)
    ('-9.5', '1962.3333', '20', '0')
    """
    text = format(exact(value).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP), "f")
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def written_apart(values: Iterable[Number], bounds: Iterable[Number]) -> tuple[list[str], list[str]]:
    """Values and bounds as text, each pair still in the order in which it is.

    Examples
    --------
    >>> written_apart([0.1000001], [0.1])
    (['0.1000001'], ['0.1'])
    """
    numbers, limits = [exact(value) for value in values], [exact(bound) for bound in bounds]
    for decimals in range(USUAL_DECIMALS, MOST_DECIMALS + 1):
        told = [written(number, decimals) for number in numbers], [written(limit, decimals) for limit in limits]
        if all(
            _order(Decimal(left), Decimal(right)) == _order(number, limit)
            for left, number in zip(told[0], numbers, strict=True)
            for right, limit in zip(told[1], limits, strict=True)
        ):
            return told
    return [format(number, "f") for number in numbers], [format(limit, "f") for limit in limits]


def _order(left: Decimal, right: Decimal) -> int:
    return (left > right) - (left < right)
