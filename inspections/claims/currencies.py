"""How many decimals has a currency, and how is an amount rounded and written?

Minor units by ISO 4217 (list one); held in the tests against a library that carries the published list. An amount
is rounded half up to the minor unit, once for each item of a claim; a claim is the sum of its rounded items, so
that what is shown adds up (rounding half up: common practice, no source; terms may say otherwise).
"""
from decimal import ROUND_HALF_UP, Decimal

USUAL_DECIMALS = 2
#: Currencies whose minor unit is another than a hundredth.
DECIMALS = {
    **dict.fromkeys(("BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV",
                     "XAF", "XOF", "XPF"), 0),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
    "CLF": 4, "UYW": 4,
}  # fmt: skip


def decimals_of(currency: str) -> int:
    """Decimals of the minor unit: 2 unless ISO 4217 says otherwise.

    >>> decimals_of("AUD"), decimals_of("JPY"), decimals_of("KWD")
    (2, 0, 3)
    """
    return DECIMALS.get(currency, USUAL_DECIMALS)


def rounded(amount: Decimal, currency: str) -> Decimal:
    """The amount in whole minor units, half up.

    >>> rounded(Decimal("220.405"), "AUD"), rounded(Decimal("1234.5"), "JPY"), rounded(Decimal("1.0005"), "KWD")
    (Decimal('220.41'), Decimal('1235'), Decimal('1.001'))
    """
    return amount.quantize(Decimal(1).scaleb(-decimals_of(currency)), rounding=ROUND_HALF_UP)


def written(amount: Decimal, currency: str) -> str:
    """An amount with its currency, thousands parted by a comma.

    >>> written(Decimal("12345.6"), "AUD"), written(Decimal("12345.6"), "JPY")
    ('AUD 12,345.60', 'JPY 12,346')
    """
    return f"{currency} {rounded(amount, currency):,f}"
