"""Whose limit is it: a published one, one agreed for these goods, or the house's own?

The judgement says it with each reason (``whose``); a record sealed before it did is read by the same rule: a bound
that the specification lays over the group's is agreed, one known from common practice is the house's. Two things
are seen here whoever judged: what was ordered is agreed, however a standard says to look at it; and the house's own
plan of opening cartons is a house rule. A house rule borrows no published name.
"""
from __future__ import annotations

from typing import Any

from .limits import DEFAULT_LIMITS
from .reasons import source_words

PUBLISHED, ORDERED, HOUSE = "published", "ordered", "house"
PRACTICE = "common_practice"
#: Limits whose fine side is what was ordered.
OF_THE_ORDER = frozenset({
    "species.label", "count", "count_larger", "label.presentation", "label.state", "label.grade", "label.method",
    "label.origin", "label.net",
})
_SHIPPED = {limit["code"]: limit["basis"]["source"] for limit in DEFAULT_LIMITS["limits"]}


def whose_limit(code: str, basis: dict[str, Any], *, is_own: bool, judged: str = "") -> str:
    """``published``, ``ordered`` or ``house``.

    Parameters
    ----------
    code : str
        Of the limit.
    basis : dict
        As sealed.
    is_own : bool
        The specification laid its own bound over the group's.
    judged : str
        What the judgement said, where it did.

    Examples
    --------
    >>> whose_limit("product_c.reject", {"known": "from_memory"}, is_own=False)
    'published'
    >>> whose_limit("count", {"known": "from_memory"}, is_own=False, judged="published")
    'ordered'
    """
    if is_own or code in OF_THE_ORDER:
        return ORDERED
    return judged or (HOUSE if basis["known"] == PRACTICE else PUBLISHED)


def limit_said(code: str, basis: dict[str, Any], whose: str) -> str:
    """Whose limit, and where it is from, in a sentence without its stop.

    Examples
    --------
    >>> limit_said("frost.heavy", {"source": "common practice, no source", "known": "common_practice"}, "house")
    'house limit, not a published one'
    >>> limit_said("product_c.reject", {"source": "CXC 8-1976 §4", "known": "read"}, "published")
    'published limit: CXC 8-1976 §4 (read in the source)'
    """
    if whose == PUBLISHED:
        return f"published limit: {source_words(basis)}"
    is_theirs = basis["known"] == PRACTICE and not _is_shipped(code, basis)
    ground = f"; its ground as the kitchen gives it: {basis['source']}" if is_theirs else ""
    told = "agreed in the specification ordered by" if whose == ORDERED else "house limit, not a published one"
    return told + ground


def own_limits(ordered: dict[str, Any]) -> set[str]:
    """Codes of the limits over which a specification, as sealed, lays its own bound."""
    life = {"life_share"} if ordered.get("min_life_share") is not None else set()
    return life | set(ordered.get("overrides") or {})


def _is_shipped(code: str, basis: dict[str, Any]) -> bool:
    """A source that came with the limit, or none: nothing that the kitchen wrote."""
    return "common practice" in basis["source"] or basis["source"] == _SHIPPED.get(code)
