"""The draw of cartons repeated from its seed at signing: were those opened the ones that chance chose?

A carton that was not drawn was chosen by hand. That is said, never refused: the receiver may have seen a torn one.
"""
from typing import Any, TypeGuard

from inspections.trade.carton_facts import MAX_CARTONS
from inspections.trade.drawing import draw_positions
from inspections.trade.quantities import UnusablePlan


def draw_repeated(line: dict[str, Any]) -> dict[str, Any] | None:
    """The draw of one line of a document, made again.

    Parameters
    ----------
    line : dict
        With ``sampling`` (seed, n, layers), the counts of cartons, and the opened cartons with their positions.

    Returns
    -------
    dict or None
        ``drawn`` and ``by_hand`` (opened, not drawn), positions ascending. None where nothing was drawn, or where
        seed and numbers do not make a draw. The phone draws from the counted cartons, or from those on the docket
        while they are not counted: of the two draws the one counts that more of the opened cartons fit.
    """
    sampling = line.get("sampling") or {}
    opened = {carton.get("position") for carton in line.get("cartons") or []} - {None}
    if not sampling.get("seed") or not opened:
        return None
    lots = [lot for lot in (line.get("cartons_counted"), line.get("cartons_on_docket")) if _is_whole(lot)]
    draws = [drawn for lot in lots if (drawn := _drawn(lot, sampling)) is not None]
    if not draws:
        return None
    drawn = min(draws, key=lambda each: len(opened - set(each)))
    return {"drawn": drawn, "by_hand": sorted(opened - set(drawn))}


def hand_words(draw: dict[str, Any] | None) -> str:
    """What the page says of cartons that were not drawn; empty where there is none, or an old record did not ask."""
    chosen = (draw or {}).get("by_hand") or []
    if not chosen:
        return ""
    listed = ", ".join(str(position) for position in chosen)
    which = f"Carton {listed} was" if len(chosen) == 1 else f"Cartons {listed} were"
    return f" {which} chosen by hand, not by the draw."


def _drawn(lot: int, sampling: dict[str, Any]) -> list[int] | None:
    number, layers = sampling.get("n"), sampling.get("layers", 1)
    if not _is_whole(number) or not _is_whole(layers):
        return None
    try:
        return draw_positions(lot, number, str(sampling["seed"]), layers)
    except UnusablePlan:
        return None


def _is_whole(value: Any) -> TypeGuard[int]:
    return isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= MAX_CARTONS
