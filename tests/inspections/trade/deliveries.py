"""A sound delivery of three opened cartons, and ways to change it, for tests and vectors."""

import copy
from typing import Any

ABSENT = "(absent)"
SPECIFICATION: dict[str, Any] = {
    "id": "s1",
    "specification_id": "x",
    "version": 1,
    "code": "VAN-HLSO-1620",
    "name": "Whiteleg, headless shell-on 16/20",
    "species_code": "PNV",
    "presentation": "HLSO",
    "state": "raw",
    "grade": "16/20",
    "carton_net_g": 10000,
    "units_per_carton": 5,
    "declared_glaze_percent": 10,
    "origin": ["EC"],
    "method": "farmed",
    "market": "ANZ",
    "min_life_share": 0.6667,
    "advisory": True,
    "overrides": {},
}
PROBE: dict[str, Any] = {
    "name": "Probe 2",
    "checked_at": "2026-11-20",
    "ice_point": {"entered": "0.0", "unit": "C"},
    "due_at": "2026-12-20",
}
_PIECES = ("black_spot", "black_spot_meat", "dehydrated", "broken", "soft", "heads", "legs", "tails")
_SHOWN = ["name", "net_weight", "lot", "date", "storage", "crustacean", "producer", "origin", "state"]


def grams(entered: str) -> dict[str, str]:
    """A reading in g."""
    return {"entered": entered, "unit": "g"}


def probed(entered: str, method: str = "core", unit: str = "C") -> dict[str, Any]:
    """A temperature entry of a carton, with a thermometer that passed its last check."""
    return {"product": {"entered": entered, "unit": unit}, "method": method, "thermometer": dict(PROBE)}


def label(**changes: Any) -> dict[str, Any]:
    """A label as ordered, 729 days of life."""
    sound = {
        "source": "typed",
        "scan": "",
        "species_code": "pnv",
        "presentation": "HLSO",
        "state": "raw",
        "grade": "16-20",
        "net": {"entered": "10", "unit": "kg"},
        "lot": "L1",
        "production_date": "2026-10-01",
        "best_before": "2028-09-30",
        "origin": "EC",
        "method": "farmed",
        "shows": list(_SHOWN),
    }
    return {**sound, **changes}


def carton(position: int, **changes: Any) -> dict[str, Any]:
    """An opened carton, sound; 78 prawns on 2010 g without glaze."""
    sound = {
        "id": f"c{position}",
        "position": position,
        "label": label(),
        "liner": "closed",
        "frost": "none",
        "refreezing": [],
        "temperature": probed("-19,5", "between_packs"),
        "looked_at": 40,
        "pieces": {kind: 1 if kind == "black_spot" else 0 for kind in _PIECES},
        "black_spot_score": 2,
        "odour": "sound",
        "foreign_matter": "none",
        "weights": {"gross": grams("2350"), "tare": grams("100"), "glazed": grams("2250"), "deglazed": grams("2010")},
        "sample": {"pieces": 78, "weight": grams("2010"), "weight_is": "deglazed"},
        "marks": {"answer": "agree"},
    }
    return {**sound, **changes}


def delivery(*cartons: dict[str, Any], **changes: Any) -> dict[str, Any]:
    """A delivery of one line, 20 cartons, three opened by the house plan."""
    line = {
        "id": "l1",
        "specification_id": "s1",
        "cartons_on_docket": 20,
        "cartons_counted": 20,
        "lot": "L1",
        "sampling": {"plan": "house", "layers": 1, "seed": "x", "n": 3, "acceptance": 0, "positions": [3, 11, 17]},
        "cartons": list(cartons) or [carton(3), carton(11), carton(17)],
        **changes,
    }
    return {
        "schema": 1,
        "id": "d",
        "limits_id": "x",
        "docket_number": "DN-5530",
        "arrived_at": "2026-11-25T06:10:00+11:00",
        "vehicle": {"air": {"entered": "-17", "unit": "C"}, "load": "sound"},
        "lines": [line],
        "photos": [],
    }


def patched(base: dict[str, Any], patch: dict[str, Any]) -> dict[str, Any]:
    """A copy with values put at paths such as "document/lines/0/lot"; ABSENT takes the key away."""
    changed = copy.deepcopy(base)
    for path, value in patch.items():
        *way, last = (int(key) if key.isdigit() else key for key in path.split("/"))
        place = changed
        for key in way:
            place = place[key]
        if value == ABSENT:
            del place[last]
        else:
            place[last] = copy.deepcopy(value)
    return changed
