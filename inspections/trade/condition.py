"""Is the food in the carton sound to look at and to smell?

Method: prawns affected are counted among prawns looked at, each share is compared unrounded with its
limit (CV-0-01), and the interval that goes with so few prawns is given beside it (Wilson, CV-9). Black spot
is counted on any surface (house limit), on more than 10 % of the surface (Codex: on more than 25 % of the
prawns, strict, CV-1-33) and on the meat (none), and may be scored on one published scale (CV-6-02). Deep drying is
judged by weight or by the surface of a block, as CXS 92-1981 §8 words it (CV-1-30), where the receiver weighed it or
looked at a block; else by pieces, which is our own reading of that rule. The reason names the way that was used.
On head-on goods head, legs and tail whole decide
(``whole_share``). A carton of the grade "soft and broken" is judged by that grade's own limits. Where one thing trips
several black-spot limits the strongest speaks: one fact, one reason.
Clumping alone is weak evidence of thaw, pooled ice and slumped
blocks are strong; with heavy frost clumping is a doubt.
Does not hold: for cooked-and-peeled goods judged by weight, for thawed goods minutes after thaw (melanosis
resumes, CV-6-14), or for naturally dark species unless the receiver has told banding from spots (CV-6-53).
Sources: CXS 92-1981 §8 (from memory), Journal of Food Processing 2015, 460617, Table 1 (read).
"""

from __future__ import annotations

from .carton_facts import CartonFacts
from .checks import judge_checks, share_facts
from .findings import Finding, Judged
from .limits import SEVERITIES, Limits
from .quantities import MAX_PIECES, UnusableReading
from .specification import Ordered

# Findings of one fact: the strongest speaks for the same black spots, and for the same clumps.
_SAME_FACT = (("BLACK-CODEX", "HEAD-BLACK", "BLACK-HOUSE", "BLACK-SCORE"), ("CLUMPS", "CLUMPED"))


def judge_condition(carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> Judged:
    """The plain checks of a carton, and what so few prawns looked at leave possible.

    Parameters
    ----------
    carton : CartonFacts
    ordered_by : Ordered
    limits : Limits
        With the specification's own bounds laid over.

    Returns
    -------
    Judged
        The checks of the registry that stand on a carton; derived ``black_share`` (0 to 1 or None) with its
        Wilson interval ``black_share_low``, ``black_share_high``.

    References
    ----------
    CXS 92-1981 §8 (CV-1-30 to CV-1-34, from memory).
    """
    judged = Judged()
    judge_checks(judged, "carton", carton.seen, limits, ordered_by)
    _add_black_share(judged, carton, limits)
    _keep_strongest(judged)
    return judged


def _keep_strongest(judged: Judged) -> None:
    """One fact, one reason: of the findings of one fact the strongest stays."""
    for codes in _SAME_FACT:
        alike = [one for one in judged.findings if one.code in codes]
        alike.sort(key=lambda one: (SEVERITIES.index(one.severity), codes.index(one.code)))
        judged.findings = [one for one in judged.findings if one not in alike[1:]]


def _add_black_share(judged: Judged, carton: CartonFacts, limits: Limits) -> None:
    affected, looked_at = carton.seen["black_spot"], carton.seen["looked_at"]
    if affected is None or looked_at is None:
        judged.derived["black_share"] = None
        return
    facts, limit = share_facts(affected, looked_at), limits["looked_at"]
    judged.derived["black_share"] = affected / looked_at
    judged.derived["black_share_low"], judged.derived["black_share_high"] = facts["low"], facts["high"]
    is_asked = any(finding.code == "PIECES-UNSURE" for finding in judged.findings)
    if not limit.is_fine(looked_at) and not is_asked:
        interval = {"low": facts["low"], "high": facts["high"]}
        judged.findings.append(
            Finding("LOOKED-AT-FEW", limit, looked_at + 0.0, limit.unit, limit.bound, limit.sense, interval)
        )


def score_by_prevalence(small_spots: int, large_stains: int, whole_body: int, looked_at: int) -> int:
    """Black spot on the published 0 to 10 scale by prevalence, from prawns counted.

    Parameters
    ----------
    small_spots, large_stains, whole_body : int
        Prawns whose worst mark is a small isolated spot, a larger stain, whole-body blackening.
    looked_at : int
        1 to 2000, not fewer than the three together.

    Returns
    -------
    int
        0, 2, 4, 6, 8 or 10.

    Raises
    ------
    UnusableReading
        FACT-03 a number that cannot be; FACT-04 more affected than looked at.

    References
    ----------
    Journal of Food Processing 2015, 460617, Table 1 (CV-6-02, read).

    Examples
    --------
    >>> score_by_prevalence(20, 0, 0, 40)        # CV-6-05: exactly half is "up to 50 %"
    2
    """
    counts = (small_spots, large_stains, whole_body)
    _check_counts(counts, looked_at)
    if whole_body == looked_at:
        return 10
    stained = large_stains + whole_body
    if stained > 0:
        return 6 if stained / looked_at <= 0.5 else 8
    if small_spots > 0:
        return 2 if small_spots / looked_at <= 0.5 else 4
    return 0


def _check_counts(counts: tuple[int, ...], looked_at: int) -> None:
    for number in (*counts, looked_at):
        if isinstance(number, bool) or not isinstance(number, int) or not 0 <= number <= MAX_PIECES:
            raise UnusableReading("FACT-03", {"low": 0, "high": MAX_PIECES})
    if looked_at < 1:
        raise UnusableReading("FACT-03", {"low": 1, "high": MAX_PIECES})
    if sum(counts) > looked_at:
        raise UnusableReading("FACT-04", {"counted": sum(counts), "looked_at": looked_at})
