"""How a row of the judged deliveries is written: the delivery that each varies, and the variations by name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .deliveries import SPECIFICATION, carton, delivery, grams, label, probed

ACCEPT, ALLOWANCE, HOLD, REJECT, NOT_YET = "accept", "accept_with_allowance", "hold", "reject", "not_yet"
_SHOWN = ["name", "net_weight", "lot", "date", "storage", "crustacean", "producer", "origin", "state"]


@dataclass(frozen=True)
class Row:
    """A delivery, what fits, why; and what the judgement says of the split and first (``first``: "" for no reason)."""

    name: str
    document: dict[str, Any]
    fits: tuple[str, ...]
    why: str
    first: str
    split: tuple[int, int, int] | None
    specification: dict[str, Any]


def row(
    name: str, document: dict[str, Any], fits: str | tuple[str, ...], why: str, first: str = "",
    split: tuple[int, int, int] | None = None, ordered: dict[str, Any] | None = None,
) -> Row:  # fmt: skip
    """A row; ``ordered`` changes the specification."""
    return Row(name, document, (fits,) if isinstance(fits, str) else fits, why, first, split,
               {**SPECIFICATION, **(ordered or {})})  # fmt: skip


def pieces(looked_at: int = 40, **counts: int) -> dict[str, Any]:
    """Pieces of a carton: those named, none of any other kind."""
    kinds = (
        "black_spot",
        "black_spot_wide",
        "black_spot_meat",
        "dehydrated",
        "broken",
        "soft",
        "heads",
        "legs",
        "tails",
    )
    score = {} if counts.get("black_spot", 0) == 0 else {"black_spot_score": 2}
    return {"looked_at": looked_at, "pieces": {kind: counts.get(kind, 0) for kind in kinds}, **score}


def all_of(change: dict[str, Any], number: int = 3) -> list[dict[str, Any]]:
    """So many opened cartons, each changed alike."""
    return [carton(3 + k, **change) for k in range(number)]


def one_of(change: dict[str, Any], number: int = 3, bad: int = 1) -> list[dict[str, Any]]:
    """So many opened cartons, the first ``bad`` of them changed."""
    return [carton(3 + k, **(change if k < bad else {})) for k in range(number)]


def lot(total: int, cartons: list[dict[str, Any]], **line: Any) -> dict[str, Any]:
    """A delivery of another number of cartons; the plan as drawn for it."""
    n = 1 if total == 1 else 2 if total <= 8 else 3 if total <= 25 else 5 if total <= 50 else 6
    plan = {"plan": "house", "layers": 1, "seed": "x", "n": n, "acceptance": 0 if total <= 50 else 1, "positions": []}
    whole = {"cartons_on_docket": total, "cartons_counted": total, "sampling": plan, **line}
    return delivery(*cartons, **whole)


def without(*names: str) -> dict[str, Any]:
    """A carton whose named entries were never made."""
    return {name: {} if name in ("weights",) else None for name in names}


SPOTS = pieces(black_spot=5)
WIDE = pieces(black_spot=14, black_spot_wide=14)
MANY = pieces(black_spot=20, black_spot_wide=20)
BAG_PD = {"presentation": "PD", "grade": "31/40", "name": "Whiteleg, peeled and deveined 31/40", "units_per_carton": 10}
PD_SAMPLE = {"pieces": 80, "weight": grams("1010"), "weight_is": "deglazed"}
PD_WEIGHTS = {"glazed": grams("1120"), "deglazed": grams("1010")}
PD = {"label": label(presentation="PD", grade="31/40"), "sample": PD_SAMPLE, "weights": PD_WEIGHTS, "marks": None}
TIGER = {
    "species_code": "GIT",
    "presentation": "HOSO",
    "grade": "16/20 per kg",
    "name": "Giant tiger, whole 16/20 per kg",
}
WHOLE = {
    "label": label(species_code="GIT", presentation="HOSO", grade="16/20 per kg"),
    "sample": {"pieces": 36, "weight": grams("2010"), "weight_is": "deglazed"},
}
BROKEN = {"grade": "soft and broken", "name": "Whiteleg, soft and broken"}
SALVAGE = {"label": label(grade="soft and broken"), "sample": None}
COLD = probed("-19,5")


def cold(*entered: str, method: str = "core") -> list[dict[str, Any]]:
    """Opened cartons by what the probe read."""
    return [carton(3 + k, temperature=probed(one, method)) for k, one in enumerate(entered)]


def net(found: str) -> dict[str, Any]:
    """A unit's weight without glaze."""
    return {"weights": {"glazed": grams("2250"), "deglazed": grams(found)}}


def counted(prawns: int, weight: str) -> dict[str, Any]:
    """A counted sample."""
    return {"sample": {"pieces": prawns, "weight": grams(weight), "weight_is": "deglazed"}}


def shows(*missing: str) -> dict[str, Any]:
    """A label that does not show these."""
    changes = {"lot": ""} if "lot" in missing else {}
    if "date" in missing:
        changes |= {"production_date": "", "best_before": ""}
    return {"label": label(shows=[one for one in _SHOWN if one not in missing], **changes)}


UNCHECKED = {
    **without("odour", "foreign_matter", "marks", "weights"),
    "pieces": {"black_spot": 0},
}
