"""How much of the weight is ice, and what is left without it?

Glaze is given as percent of the glazed weight (CV-4-03) and, where a contract says so, of the net
weight (CV-4-04). Declared net weight of glazed goods never includes the glaze (CV-4-10, read).
Does not hold for goods that have thawed: water lost then is drip, not glaze.
Shortage against the declared weight: ``shortage``. Procedures step by step: ``data/procedures.json``.
"""

from typing import Any

from .answer import Beyond, Within, against_limit
from .basis import load_table
from .quantities import UnusableReading
from .uniformity import check_weight

TOLERANCES: dict[str, Any] = load_table("tolerances")
SCREENING: str = TOLERANCES["screening"]


def glazed_g(gross_g: float, tare_g: float) -> float:
    """Weight of frozen goods with their glaze: gross less all packing (CV-4-02).

    Parameters
    ----------
    gross_g, tare_g : float
        g, above 0.

    Returns
    -------
    float
        g, above 0.

    Raises
    ------
    UnusableReading
        WEIGHT-01, WEIGHT-02; GLAZE-01 packing not lighter than the whole.

    Examples
    --------
    >>> glazed_g(2185.0, 85.0)          # CV-4-06
    2100.0
    """
    return _less(gross_g, tare_g, "GLAZE-01")


def deglazed_g(sieve_and_goods_g: float, sieve_g: float) -> float:
    """Weight without glaze: goods drained on the sieve, less the wetted sieve (CV-4-01).

    Raises
    ------
    UnusableReading
        WEIGHT-01, WEIGHT-02; GLAZE-02 sieve not lighter than sieve and goods.
    """
    return _less(sieve_and_goods_g, sieve_g, "GLAZE-02")


def glaze_percent(with_glaze_g: float, without_glaze_g: float) -> float:
    """Glaze in percent of the glazed weight (CV-4-03).

    Parameters
    ----------
    with_glaze_g, without_glaze_g : float
        The same goods, g.

    Returns
    -------
    float
        0 to 100, unrounded.

    Raises
    ------
    UnusableReading
        WEIGHT-01, WEIGHT-02; GLAZE-03 heavier without glaze than with it.

    Examples
    --------
    >>> glaze_percent(1250.0, 1000.0)       # CV-4-05
    20.0
    """
    _check_pair(with_glaze_g, without_glaze_g)
    return 100.0 * (with_glaze_g - without_glaze_g) / with_glaze_g


def judge_glaze(
    with_glaze_g: float, without_glaze_g: float, declared_percent: float, allowed_points: float = 0.0
) -> Within | Beyond:
    """Glaze found against glaze declared; more than declared and allowed is beyond.

    Parameters
    ----------
    with_glaze_g, without_glaze_g : float
        The same goods, g.
    declared_percent : float
        Percent of the glazed weight, 0 to below 100.
    allowed_points : float
        Percentage points over the declared glaze that are still fine, end point in.

    Returns
    -------
    Within or Beyond
        Measured in percent of the glazed weight; facts hold ``over_points``.

    Raises
    ------
    UnusableReading
        As ``glaze_percent``; PERCENT-01 a declared glaze outside 0 to 100.
    """
    if not 0.0 <= declared_percent < 100.0:
        raise UnusableReading("PERCENT-01", {"entered": declared_percent})
    found = glaze_percent(with_glaze_g, without_glaze_g)
    facts = {"declared_percent": declared_percent, "over_points": found - declared_percent}
    return against_limit(found, "percent", declared_percent + allowed_points, "at_most", facts)


def _less(whole_g: float, part_g: float, code: str) -> float:
    check_weight(whole_g)
    check_weight(part_g)
    if part_g >= whole_g:
        raise UnusableReading(code, {"whole_g": whole_g, "part_g": part_g})
    return whole_g - part_g


def _check_pair(with_glaze_g: float, without_glaze_g: float) -> None:
    check_weight(with_glaze_g)
    check_weight(without_glaze_g)
    if without_glaze_g > with_glaze_g:
        raise UnusableReading("GLAZE-03", {"glazed_g": with_glaze_g, "deglazed_g": without_glaze_g})
