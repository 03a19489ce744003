"""Is the freezer cold enough for what is put away?

Method: the freezer's air, unrounded, against what is wanted (-20 °C, common practice) and what the standard asks for
frozen prawns to be kept at (-18 °C or colder, CV-1-12). Between the two the goods keep, and the freezer is looked at;
warmer, they go into a colder one. Does not hold: for the air of a freezer whose door was just open, or that defrosts;
so one reading asks for another before it asks for a technician.
Source: CXS 92-1981 §6 (read, as a national law repeats it); -20 °C is common practice, no source.
"""

from __future__ import annotations

from typing import Any

from .limits import Limits
from .wording import WORDS, filled, shown_measure


def judge_freezer(air_c: float, limits: Limits) -> dict[str, Any]:
    """What the air of a freezer means for goods put away.

    Parameters
    ----------
    air_c : float
        °C.
    limits : Limits

    Returns
    -------
    dict
        ``state`` (cold, near or warm) and ``text``.

    Examples
    --------
    >>> from .limits import DEFAULT_LIMITS, limits_from_json
    >>> limits = limits_from_json(DEFAULT_LIMITS)
    >>> [judge_freezer(air_c, limits)["state"] for air_c in (-20.0, -19.9, -18.0, -17.9, -9.0)]
    ['cold', 'near', 'near', 'warm', 'warm']
    """
    wanted, kept = limits["freezer_air_c.wanted"], limits["freezer_air_c"]
    state = "cold" if wanted.is_fine(air_c) else "near" if kept.is_fine(air_c) else "warm"
    places = {
        "measured": shown_measure(air_c, "C"),
        "wanted": shown_measure(wanted.bound or 0.0, "C"),
        "kept": shown_measure(kept.bound or 0.0, "C"),
    }
    return {"state": state, "text": filled(WORDS["freezer"][state], places)}
