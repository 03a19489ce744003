"""How many prawns to the pound, and does that meet the size grade?

Pieces divided by the weight without glaze (CXS 92-1981 §7.4, CV-1-26). A sample of a few dozen
pieces does not fix the count of a carton: the piece-to-piece spread of weights gives a range, and
a count whose range lies across an edge of the grade answers "cannot tell, weigh more".
Does not hold for glazed weight without a stated glaze, for "peeled from" counts (the raw count
can't be weighed back) and for soft and broken, which have no count. Grades: ``grades``.
"""

from dataclasses import dataclass
from math import ceil, sqrt
from typing import Any

from .answer import Answer, Beyond, CannotTell, Sense, Within
from .grades import GAP_RULE, SIZES, Edges, Grade, edges_of, holds, nearest_grade, price_effect
from .quantities import GRAMS_PER_LB, UnusableReading, to_pieces
from .uniformity import Sample, check_weight, spread_of

Z_95: float = SIZES["z_95"]
MOST_PIECES_TO_WEIGH = 500


@dataclass(frozen=True, slots=True)
class Count:
    """A count and its 95 % range, pieces per lb or per kg, unrounded."""

    value: float
    low: float
    high: float
    per: str
    spread: float
    spread_from: str
    pieces: int
    deglazed_g: float


def count_per_lb(pieces: int, deglazed_g: float) -> float:
    """Prawns to the pound, on the weight without glaze.

    Parameters
    ----------
    pieces : int
        1 to 2000.
    deglazed_g : float
        Weight of just those pieces, g, above 0.

    Returns
    -------
    float
        Pieces per lb (453.59237 g), unrounded.

    Raises
    ------
    UnusableReading
        COUNT-01 a number, WEIGHT-01 or WEIGHT-02 a weight that no sample can have.

    References
    ----------
    CXS 92-1981 §7.4 (CV-1-26, from memory).

    Examples
    --------
    >>> round(count_per_lb(88, 1760), 2)        # CV-1-57
    22.68
    """
    check_weight(deglazed_g)
    return to_pieces(pieces) * GRAMS_PER_LB / deglazed_g


def count_per_kg(pieces: int, deglazed_g: float) -> float:
    """Prawns to the kilogram, on the weight without glaze; errors as ``count_per_lb``.

    >>> count_per_kg(88, 1760)                  # CV-1-58
    50.0
    """
    check_weight(deglazed_g)
    return to_pieces(pieces) * 1000.0 / deglazed_g


def count_per(per: str, pieces: int, deglazed_g: float) -> float:
    """Count by the pound ("lb") or the kilogram ("kg"); errors as ``count_per_lb``."""
    return count_per_kg(pieces, deglazed_g) if per == "kg" else count_per_lb(pieces, deglazed_g)


def deglazed_weight_g(sample: Sample) -> float | None:
    """Weight of the sample without glaze, g; None when it was weighed glazed and no glaze is stated.

    Raises
    ------
    UnusableReading
        WEIGHT-01 or WEIGHT-02 a weight that no sample has; PERCENT-01 a glaze of 100 % or more or
        below 0 %; READ-04 another word for the state of the pieces.
    """
    check_weight(sample.weight_g)
    if sample.weight_is in ("deglazed", "unglazed"):
        return sample.weight_g
    if sample.weight_is != "glazed":
        raise UnusableReading("READ-04", {"entered": str(sample.weight_is), "unit": ""})
    if sample.glaze_percent is None:
        return None
    if not 0.0 <= sample.glaze_percent < 100.0:
        raise UnusableReading("PERCENT-01", {"entered": sample.glaze_percent})
    return sample.weight_g * (1.0 - sample.glaze_percent / 100.0)


def count_sample(sample: Sample, per: str = "lb") -> Count | CannotTell:
    """The count that a sample gives, with its 95 % range.

    Parameters
    ----------
    sample : Sample
        As weighed.
    per : {"lb", "kg"}
        Unit of the count.

    Returns
    -------
    Count or CannotTell
        ``COUNT-GLAZED`` when the pieces were weighed glazed and no glaze is stated.

    Raises
    ------
    UnusableReading
        COUNT-01, COUNT-02, WEIGHT-01, WEIGHT-02, PERCENT-01, READ-04.
    """
    pieces = to_pieces(sample.pieces)
    deglazed_g = deglazed_weight_g(sample)
    if deglazed_g is None:
        return CannotTell(("COUNT-GLAZED",), {"sample_pieces": pieces})
    value = count_per(per, pieces, deglazed_g)
    spread, spread_from = spread_of(sample)
    error = Z_95 * spread * _left_unweighed(sample, deglazed_g) / sqrt(pieces)
    return Count(value, value / (1.0 + error), value / (1.0 - error), per, spread, spread_from, pieces, deglazed_g)


def judge_count(sample: Sample, grade: Grade, gap_rule: str = GAP_RULE) -> Answer:
    """Whether the sample meets the size grade, or is too small to say.

    Parameters
    ----------
    sample : Sample
        As weighed.
    grade : Grade
        As ordered or as on the label.
    gap_rule : {"whole_prawn", "literal"}
        CV-3-19: round to the nearest whole prawn before comparing (half goes up), or not.

    Returns
    -------
    Within, Beyond or CannotTell
        Measured in pieces per ``grade.per``. Cannot tell: COUNT-GLAZED, COUNT-PEELED-FROM,
        COUNT-BROKEN (no count to meet), COUNT-UNSURE. Facts hold the range, what the bare count
        says (``point``), the grade met or ``nearest``, how many percent more prawns than its near edge the weight
        holds (``price_percent``, None inside the grade), and ``weigh_more`` (further pieces; None = weigh
        the whole unit).

    Raises
    ------
    UnusableReading
        As ``count_sample``.
    """
    if grade.kind == "broken":
        return CannotTell(("COUNT-BROKEN",), {"grade": grade.text})
    if grade.basis == "peeled_from":
        return CannotTell(("COUNT-PEELED-FROM",), {"grade": grade.text})
    count = count_sample(sample, grade.per)
    if isinstance(count, CannotTell):
        return count
    edges = edges_of(grade, gap_rule)
    facts = _count_facts(count, grade, gap_rule)
    point = holds(edges, count.value)
    if point and holds(edges, count.low) and holds(edges, count.high):
        return Within(count.value, grade.unit, facts)
    if not point and _range_is_outside(count, edges):
        is_small = edges.high is not None and count.value >= edges.high
        bound = grade.high if is_small else grade.low
        return Beyond(count.value, grade.unit, bound, _sense(grade, is_small=is_small), facts)
    more = pieces_to_weigh_more(count, edges)
    return CannotTell(("COUNT-UNSURE",), {**facts, "weigh_more": more})


def pieces_to_weigh_more(count: Count, edges: Edges) -> int | None:
    """Further prawns to weigh until a count like this would clear the nearest edge.

    Returns
    -------
    int or None
        At least 1; None when more than 500 in all would be needed, or the count lies on an edge:
        then the whole unit is weighed.
    """
    clear = 1.0
    if edges.high is not None:
        gap = 1.0 - count.value / edges.high if count.value < edges.high else count.value / edges.high - 1.0
        clear = min(clear, gap)
    if edges.low is not None:
        gap = count.value / edges.low - 1.0 if count.value > edges.low else 1.0 - count.value / edges.low
        clear = min(clear, gap)
    if clear <= 0.0:
        return None
    root = Z_95 * count.spread / clear
    needed = ceil(root * root)
    return None if needed > MOST_PIECES_TO_WEIGH else max(1, needed - count.pieces)


def explain_count(sample: Sample, grade: Grade, gap_rule: str = GAP_RULE) -> dict[str, Any]:
    """Why: formula, numbers, limit and sources of a count, as JSON; errors as ``count_sample``."""
    count = count_sample(sample, grade.per)
    numbers: dict[str, Any] = {"pieces": sample.pieces, "weight_g": sample.weight_g, "weight_is": sample.weight_is}
    if isinstance(count, Count):
        numbers |= {"deglazed_g": count.deglazed_g, "count": count.value, "low": count.low, "high": count.high}
        numbers |= {"spread": count.spread, "spread_from": count.spread_from}
    divisor = "453.59237" if grade.per == "lb" else "1000"
    return {
        "formula": f"pieces x {divisor} / weight without glaze in g",
        "numbers": numbers,
        "limit": {"grade": grade.text, "low": grade.low, "high": grade.high, "per": grade.per, "gap_rule": gap_rule},
        "source": [SIZES["basis"]["count"], SIZES["basis"]["gap"], SIZES["basis"]["spread"]],
    }


def _count_facts(count: Count, grade: Grade, gap_rule: str) -> dict[str, Any]:
    return {
        "grade": grade.text,
        "nearest": nearest_grade(count.value, grade.per, gap_rule).text,
        "price_percent": price_effect(grade, count.value)["percent"],
        "point": "within" if holds(edges_of(grade, gap_rule), count.value) else "beyond",
        "low": count.low,
        "high": count.high,
        "spread": count.spread,
        "spread_from": count.spread_from,
        "sample_pieces": count.pieces,
        "deglazed_g": count.deglazed_g,
    }


def _range_is_outside(count: Count, edges: Edges) -> bool:
    if edges.high is not None and not holds(Edges(None, edges.high, edges.is_high_in), count.low):
        return True
    return edges.low is not None and count.high < edges.low


def _sense(grade: Grade, *, is_small: bool) -> Sense:
    if is_small:
        return "below" if grade.kind == "under" else "at_most"
    return "at_least"


def _left_unweighed(sample: Sample, deglazed_g: float) -> float:
    """Root of the share of the unit that was not weighed (finite population); 1 when not known."""
    if sample.unit_g is None:
        return 1.0
    return sqrt(1.0 - deglazed_g / sample.unit_g) if deglazed_g < sample.unit_g else 0.0
