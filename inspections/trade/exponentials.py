"""Powers of e and natural logarithms that come out the same on every machine.

The last bit of a library's ``exp`` and ``log`` differs between a server and a phone; here both
are built from the four basic operations, which do not. Within 2 units in the last place for the
arguments that exposure figures need; not meant as general replacements.
Method: reduce by powers of two (ln 2 in two parts), then a series summed in fixed order.
"""

LN2_HIGH = 6.93147180369123816490e-01
LN2_LOW = 1.90821492927058770002e-10
_EXP_TERMS = 18
_LOG_TERMS = 21


def natural_exp(x: float) -> float:
    """e to the power x, for -700 <= x <= 700.

    Raises
    ------
    ValueError
        Outside that range, or not a number.
    """
    if not -700.0 <= x <= 700.0:
        raise ValueError(f"No exposure needs e to the power {x}.")
    halvings = int(abs(x) / LN2_HIGH + 0.5)
    if x < 0.0:
        halvings = -halvings
    rest = (x - halvings * LN2_HIGH) - halvings * LN2_LOW
    total = 1.0
    for i in range(_EXP_TERMS, 0, -1):
        total = 1.0 + total * rest / i
    factor = 2.0 if halvings > 0 else 0.5
    for _ in range(abs(halvings)):
        total = total * factor
    return total


def natural_log(x: float) -> float:
    """Natural logarithm of x, for 1e-300 <= x <= 1e300.

    Raises
    ------
    ValueError
        Outside that range, or not a number.
    """
    if not 1e-300 <= x <= 1e300:
        raise ValueError(f"No exposure needs the logarithm of {x}.")
    doublings = 0
    while x > 1.4142135623730951:
        x = x / 2.0
        doublings = doublings + 1
    while x < 0.7071067811865476:
        x = x * 2.0
        doublings = doublings - 1
    ratio = (x - 1.0) / (x + 1.0)
    square = ratio * ratio
    total = 0.0
    for i in range(2 * _LOG_TERMS + 1, 0, -2):
        total = total * square + 1.0 / i
    return doublings * LN2_HIGH + (2.0 * ratio * total + doublings * LN2_LOW)
