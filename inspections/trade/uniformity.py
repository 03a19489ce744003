"""How even in size are the prawns of one carton?

Weight of the largest tenth by count over weight of the smallest tenth, whole prawns only
(CV-3-53, from memory; purchase limit 1.5, CV-3-54, read). A tenth is rounded half up (CV-3-72). The
same two weights estimate the piece-to-piece spread that ``counts`` needs.
Does not hold for fewer than ten prawns.
"""

from dataclasses import dataclass

from .grades import SIZES
from .quantities import MAX_MASS_G, UnusableReading, to_pieces

DEFAULT_SPREAD: float = SIZES["default_spread"]
LEAST_SPREAD: float = SIZES["least_spread"]
LEAST_PIECES_FOR_TENTHS: int = SIZES["least_pieces_for_tenths"]


@dataclass(frozen=True, slots=True)
class Sample:
    """Pieces weighed together.

    Attributes
    ----------
    pieces : int
        1 to 2000.
    weight_g : float
        g, as weighed.
    weight_is : {"deglazed", "glazed", "unglazed"}
        State of the weighed pieces; "unglazed" never had a glaze.
    largest_g, smallest_g : float or None
        Weight of the largest and of the smallest tenth by count (``tenth_of``), g; None = not weighed.
    glaze_percent : float or None
        Stated or measured glaze, percent of the glazed weight, for a glazed sample.
    unit_g : float or None
        Weight without glaze of the unit that the sample came from, g; the whole unit weighed
        leaves nothing to chance.
    """

    pieces: int
    weight_g: float
    weight_is: str
    largest_g: float | None = None
    smallest_g: float | None = None
    glaze_percent: float | None = None
    unit_g: float | None = None


def tenth_of(pieces: int) -> int:
    """How many prawns make a tenth: rounded half up, at least one (rule CV-3-72).

    >>> tenth_of(20), tenth_of(25), tenth_of(26)
    (2, 3, 3)
    """
    return max(1, (to_pieces(pieces) + 5) // 10)


def uniformity_ratio(largest_g: float, smallest_g: float) -> float:
    """Weight of the largest tenth over weight of the smallest tenth, whole prawns only (CV-3-53).

    Parameters
    ----------
    largest_g, smallest_g : float
        g, the same number of pieces in both.

    Raises
    ------
    UnusableReading
        WEIGHT-01, WEIGHT-02; COUNT-02 the largest weigh less than the smallest.

    Examples
    --------
    >>> round(uniformity_ratio(59.6, 45.1), 4)      # CV-3-70
    1.3215
    """
    check_weight(largest_g)
    check_weight(smallest_g)
    if largest_g < smallest_g:
        raise UnusableReading("COUNT-02", {"largest_g": largest_g, "smallest_g": smallest_g})
    return largest_g / smallest_g


def spread_of(sample: Sample) -> tuple[float, str]:
    """Coefficient of variation of the piece weights, and where it is from.

    From the tenths when they were weighed: for a normal law the largest tenth averages
    mean + t x sd and the smallest mean - t x sd, so cv = (R - 1) / (t (R + 1)), with t the expected
    mean of the outer tenth of so many pieces (1.54 for 10, 1.755 for many). Never below 0.05, as two
    small tenths can agree by chance. Without tenths 0.12, which is a uniformity ratio just above 1.5.

    Returns
    -------
    tuple
        Spread (0 to 1) and "tenths" or "default".

    Raises
    ------
    UnusableReading
        As ``uniformity_ratio``.
    """
    if sample.largest_g is None or sample.smallest_g is None or sample.pieces < LEAST_PIECES_FOR_TENTHS:
        return DEFAULT_SPREAD, "default"
    ratio = uniformity_ratio(sample.largest_g, sample.smallest_g)
    tails = SIZES["tail_means_from_10"]
    place = sample.pieces - LEAST_PIECES_FOR_TENTHS
    tail = tails[place] if place < len(tails) else SIZES["tail_mean_large"]
    estimate = (ratio - 1.0) / (tail * (ratio + 1.0))
    return max(estimate, LEAST_SPREAD), "tenths"


def check_weight(weight_g: float) -> None:
    """Refuse a weight that no scale shows: WEIGHT-01, WEIGHT-02."""
    if not weight_g > 0:
        raise UnusableReading("WEIGHT-01", {"entered": weight_g, "unit": "g"})
    if weight_g > MAX_MASS_G:
        raise UnusableReading("WEIGHT-02", {"entered": weight_g, "unit": "g", "max_g": MAX_MASS_G})
