"""Is the food in the carton sound to look at and to smell?

Method: prawns affected are counted among prawns looked at, each share is compared unrounded with its
limit (CV-0-01), and the interval that goes with so few prawns is given beside it (Wilson, CV-9). Black spot
is counted on any surface (house limit), on more than 10 % of the surface (Codex: on more than 25 % of the
prawns, strict, CV-1-33) and on the meat (none), and may be scored on one published scale (CV-6-02). Deep drying is
judged by weight or by the surface of a block, as CXS 92-1981 §8 words it (CV-1-30), where the receiver weighed it or
looked at a block; else by pieces, which is our own reading of that rule. The reason names the way that was used.
With fewer prawns looked at than the group asks for (``looked_at``), a share whose interval still reaches down to its
limit is not called beyond: more prawns are asked for. On head-on goods head, legs and tail whole decide
(``whole_share``). A carton of the grade "soft and broken" is judged by that grade's own limits. Where one thing trips
several black-spot limits the strongest speaks: one fact, one reason.
Clumping alone is weak evidence of thaw, pooled ice and slumped
blocks are strong; with heavy frost clumping is a doubt.
Does not hold: for cooked-and-peeled goods judged by weight, for thawed goods minutes after thaw (melanosis
resumes, CV-6-14), or for naturally dark species unless the receiver has told banding from spots (CV-6-53).
Sources: CXS 92-1981 §8 (from memory), Journal of Food Processing 2015, 460617, Table 1 (read).
"""

from __future__ import annotations

from typing import Any

from .carton_facts import CartonFacts
from .findings import CANNOT_TELL, Finding, Judged
from .intervals import wilson
from .limits import SEVERITIES, Limit, Limits
from .quantities import MAX_PIECES, UnusableReading
from .specification import Ordered

# Check name, kind counted, limit, code of the finding.
SHARES = (
    ("black_spot", "black_spot", "black_spot_share", "BLACK-HOUSE"),
    ("black_spot_meat", "black_spot_meat", "black_spot_meat_share", "BLACK-MEAT"),
    ("dehydrated", "dehydrated", "dehydrated_share", "DEHYDRATED"),
    ("soft", "soft", "soft_share", "SOFT"),
    ("heads", "heads", "heads_share", "HEADS"),
    ("legs", "legs", "legs_share", "LEGS"),
    ("tails", "tails", "tails_share", "TAILS"),
)
ENDS = ("heads", "legs", "tails")
# Of the grade "soft and broken" these are the goods, not a fault of them.
OF_THE_GRADE = ("soft", "broken", *ENDS)
STRONG_SIGNS = ("ice_pool", "deformed")
# The strongest of these speaks for the same black spots.
_SAME_SPOTS = ("BLACK-CODEX", "BLACK-HOUSE", "BLACK-SCORE")


def shares_for(ordered_by: Ordered) -> tuple[tuple[str, str, str, str], ...]:
    """The shares judged for what was ordered: check, kind counted, limit, code of the finding."""
    if ordered_by.is_soft_and_broken:
        rows = tuple(row for row in SHARES if row[0] not in OF_THE_GRADE)
        return (("black_spot", "black_spot", "black_spot_share.soft_broken", "BLACK-HOUSE"), *rows[1:])
    if ordered_by.presentation != "HOSO":
        return SHARES
    return tuple(
        (name, kind, "whole_share", code + "-WHOLE") if name in ENDS else (name, kind, limit, code)
        for name, kind, limit, code in SHARES
    )


def tell_share(
    judged: Judged, name: str, share: float, code: str, limit: Limit, facts: dict[str, Any], few: Limit
) -> bool:
    """A share against its limit; True when past it. Too few prawns to tell are asked for, not judged."""
    is_unsure = not limit.is_fine(share) and not few.is_fine(facts["looked_at"]) and limit.is_fine(facts["low"])
    if not is_unsure:
        return judged.measure(name, share, code, limit, facts)
    judged.checks[name] = CANNOT_TELL
    asked = {**facts, "of": code, "least": int(few.bound or 0.0), "group": "pieces_of"}
    judged.findings.append(Finding("PIECES-UNSURE", few, share, limit.unit, limit.bound, limit.sense, asked))
    return True


def _share_facts(affected: int, looked_at: int) -> dict[str, float]:
    low, high = wilson(affected, looked_at)
    return {"affected": affected, "looked_at": looked_at, "low": low, "high": high}


def _judge_share(judged: Judged, carton: CartonFacts, limits: Limits, row: tuple[str, str, str, str]) -> None:
    name, kind, limit_code, code = row
    affected = carton.pieces.get(kind)
    if affected is None or carton.looked_at is None:
        judged.leave(name)
        return
    facts = _share_facts(affected, carton.looked_at)
    is_past = tell_share(
        judged, name, affected / carton.looked_at, code, limits[limit_code], facts, limits["looked_at"]
    )
    if not is_past and limit_code == "whole_share":
        own = limits[f"{name}_share"]
        tell_share(judged, name, affected / carton.looked_at, name.upper(), own, facts, limits["looked_at"])


def _judge_wide_black_spot(judged: Judged, carton: CartonFacts, limits: Limits) -> None:
    """Codex: more than 10 % of the surface, on more than 25 % of the prawns."""
    limit, looked_at = limits["black_spot_wide_share"], carton.looked_at
    wide, any_spot = carton.pieces.get("black_spot_wide"), carton.pieces.get("black_spot")
    if looked_at is None or (wide is None and any_spot is None):
        judged.leave("black_spot_wide")
    elif wide is not None:
        facts = _share_facts(wide, looked_at)
        tell_share(judged, "black_spot_wide", wide / looked_at, "BLACK-CODEX", limit, facts, limits["looked_at"])
    elif any_spot is not None and limit.is_fine(any_spot / looked_at):
        # Prawns with wide spots are some of those with any spot, so the share cannot be higher.
        judged.checks["black_spot_wide"] = "within"
    else:
        judged.checks["black_spot_wide"] = CANNOT_TELL


def dried_by(carton: CartonFacts) -> str:
    """How deep drying is judged: by "weight" or "surface" as CXS 92 words it, by "pieces" where neither is given."""
    drying = carton.drying
    if drying is not None and drying.dried_g is not None and drying.of_g is not None:
        return "weight"
    return "surface" if drying is not None and drying.block_share is not None else "pieces"


def dried_share(carton: CartonFacts) -> tuple[float, str, str]:
    """Share deeply dried by weight or by surface of a block, with limit and code of the finding (CV-1-30)."""
    drying = carton.drying
    if drying is not None and drying.dried_g is not None and drying.of_g is not None:
        return drying.dried_g / drying.of_g, "dehydrated_weight_share", "DEHYDRATED-WEIGHT"
    block_share = None if drying is None else drying.block_share
    return block_share or 0.0, "dehydrated_surface_share", "DEHYDRATED-SURFACE"


def _judge_drying(judged: Judged, carton: CartonFacts, limits: Limits) -> None:
    share, limit_code, code = dried_share(carton)
    facts: dict[str, Any] = {"counted_by": dried_by(carton)}
    if carton.drying is not None and facts["counted_by"] == "weight":
        facts |= {"dried_g": carton.drying.dried_g, "of_g": carton.drying.of_g}
    judged.measure("dehydrated", share, code, limits[limit_code], facts)


def _judge_broken(judged: Judged, carton: CartonFacts, limits: Limits) -> None:
    broken, looked_at = carton.pieces.get("broken"), carton.looked_at
    if broken is None or looked_at is None:
        judged.leave("broken")
        return
    facts = _share_facts(broken, looked_at)
    few = limits["looked_at"]
    if not tell_share(judged, "broken", broken / looked_at, "BROKEN", limits["broken_share"], facts, few):
        tell_share(judged, "broken", broken / looked_at, "BROKEN-NOTE", limits["broken_share.note"], facts, few)


def _judge_wrapping(judged: Judged, carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> None:
    is_lined = ordered_by.pack == "lined_carton"
    if carton.liner == "closed" or (not is_lined and carton.liner in (None, "missing")):
        judged.checks["liner"] = "within"
    elif carton.liner is None:
        judged.leave("liner")
    else:
        judged.see("liner", True, "LINER-" + carton.liner.upper(), limits["liner." + carton.liner])
    if carton.frost is None:
        judged.leave("frost")
    else:
        judged.see("frost", carton.frost == "heavy", "FROST-HEAVY", limits["frost.heavy"])
    if carton.refreezing is None:
        judged.leave("refreezing")
        return
    signs = list(carton.refreezing)
    if any(sign in STRONG_SIGNS for sign in signs):
        judged.see("refreezing", True, "REFREEZING", limits["refreezing"], {"signs": signs})
    elif carton.frost == "heavy":
        judged.see("refreezing", bool(signs), "THAW-SIGNS", limits["refreezing.frosted"])
    else:
        judged.see("refreezing", bool(signs), "CLUMPED", limits["refreezing.clumped"])


def _judge_smell_and_foreign(judged: Judged, carton: CartonFacts, limits: Limits) -> None:
    if carton.odour is None:
        judged.leave("odour")
    elif carton.odour == "sound":
        judged.checks["odour"] = "within"
    else:
        judged.see("odour", True, "ODOUR-" + carton.odour.upper(), limits["odour." + carton.odour])
    if carton.foreign_matter is None:
        judged.leave("foreign_matter")
    elif carton.foreign_matter == "none":
        judged.checks["foreign_matter"] = "within"
    else:
        found = carton.foreign_matter
        judged.see("foreign_matter", True, "FOREIGN-" + found.upper(), limits["foreign." + found])


def judge_condition(carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> Judged:
    """Wrapping, frost, refreezing, smell, foreign matter, and prawns affected of prawns looked at.

    Parameters
    ----------
    carton : CartonFacts
    ordered_by : Ordered
        Presentation, grade and pack.
    limits : Limits
        With the specification's own bounds laid over.

    Returns
    -------
    Judged
        Checks liner, frost, refreezing, odour, foreign_matter, black_spot, black_spot_wide,
        black_spot_meat, black_spot_score, dehydrated, broken, soft, heads, legs, tails; derived
        ``black_share`` (0 to 1 or None) with its Wilson interval ``black_share_low``, ``black_share_high``.

    References
    ----------
    CXS 92-1981 §8 (CV-1-30 to CV-1-34, from memory).
    """
    judged = Judged()
    _judge_wrapping(judged, carton, ordered_by, limits)
    _judge_smell_and_foreign(judged, carton, limits)
    for row in shares_for(ordered_by):
        if row[0] == "dehydrated" and dried_by(carton) != "pieces":
            _judge_drying(judged, carton, limits)
        else:
            _judge_share(judged, carton, limits, row)
    _judge_wide_black_spot(judged, carton, limits)
    if not ordered_by.is_soft_and_broken:
        _judge_broken(judged, carton, limits)
    if carton.black_spot_score is None or ordered_by.is_soft_and_broken:
        judged.leave("black_spot_score")
    else:
        judged.measure("black_spot_score", carton.black_spot_score + 0.0, "BLACK-SCORE", limits["black_spot_score"])
    _add_black_share(judged, carton, limits)
    _keep_strongest(judged)
    return judged


def _keep_strongest(judged: Judged) -> None:
    """One fact, one reason: of the findings for the same black spots the strongest stays."""
    alike = [one for one in judged.findings if one.code in _SAME_SPOTS]
    alike.sort(key=lambda one: (SEVERITIES.index(one.severity), _SAME_SPOTS.index(one.code)))
    judged.findings = [one for one in judged.findings if one not in alike[1:]]


def _add_black_share(judged: Judged, carton: CartonFacts, limits: Limits) -> None:
    affected, looked_at = carton.pieces.get("black_spot"), carton.looked_at
    if affected is None or looked_at is None:
        judged.derived["black_share"] = None
        return
    low, high = wilson(affected, looked_at)
    judged.derived["black_share"] = affected / looked_at
    judged.derived["black_share_low"], judged.derived["black_share_high"] = low, high
    limit = limits["looked_at"]
    is_asked = any(finding.code == "PIECES-UNSURE" for finding in judged.findings)
    if not limit.is_fine(looked_at) and not is_asked:
        facts = {"low": low, "high": high}
        measured = looked_at + 0.0
        judged.findings.append(Finding("LOOKED-AT-FEW", limit, measured, limit.unit, limit.bound, limit.sense, facts))


def explain_condition(affected: int, looked_at: int, limit: Limit) -> dict[str, Any]:
    """Why: formula, numbers with their interval, limit and source of prawns counted, as JSON.

    Raises
    ------
    UnusableReading
        SHARE-01: nothing was looked at, or more affected than looked at.
    """
    low, high = wilson(affected, looked_at)
    numbers = {"affected": affected, "looked_at": looked_at, "share": affected / looked_at, "low": low, "high": high}
    return {
        "formula": "prawns affected / prawns looked at; interval by Wilson for 95 %",
        "numbers": numbers,
        "limit": {"bound": limit.bound, "sense": limit.sense},
        "source": [limit.basis.to_json()],
    }


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
