"""What was ordered, read so that a carton can be held against it.

A specification version that lacks what a judgement needs is listed as unusable; its line then waits with
"the specification ordered by" as not checked, instead of being judged against a guess.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .entries import Reader, Unusable
from .grades import is_soft_and_broken
from .registry import choices_of

MARKETS = ("EU", "US", "ANZ", "CODEX")
PACKS = ("lined_carton", "sealed_bags")
# Peeled goods come frozen singly in sealed bags unless the specification says otherwise (common practice).
PEELED = ("PTO", "PDTO", "PUD", "PD", "BTTY", "PPV")
# Nothing on bare meat tells the species (CV-7-33).
WITHOUT_MARKS = ("PUD", "PD", "PPV")


@dataclass(frozen=True)
class Ordered:
    """One specification version; weights in g, shares 0 to 1."""

    id: str
    name: str
    species_code: str
    presentation: str
    state: str
    grade: str
    carton_net_g: float
    units_per_carton: int
    declared_glaze_percent: float | None
    origin: tuple[str, ...]
    method: str | None
    market: str
    pack: str
    min_life_share: float | None
    overrides: dict[str, Any]

    @property
    def unit_net_g(self) -> float:
        """Declared net weight of one unit, g."""
        return self.carton_net_g / self.units_per_carton

    @property
    def is_soft_and_broken(self) -> bool:
        """Whether the grade "soft and broken" was ordered."""
        return is_soft_and_broken(self.grade)


def _number(reader: Reader, value: Any, path: str, low: float, high: float) -> float | None:
    """A number from low (out) to high (in)."""
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        reader.refuse(path, "FACT-01", {"expected": "number"})
        return None
    if not low < value <= high:
        reader.refuse(path, "FACT-03", {"low": low, "high": high})
        return None
    return value + 0.0


def _ordered(reader: Reader, value: Any, path: str) -> Ordered | None:
    entry = reader.record(value, path)
    if entry is None:
        return None
    overrides = reader.record(entry.get("overrides"), f"{path}.overrides")
    origin = reader.items(entry.get("origin"), f"{path}.origin") or []
    presentation = reader.word(entry.get("presentation"), f"{path}.presentation", choices_of("presentation"))
    state = reader.word(entry.get("state"), f"{path}.state", choices_of("state"))
    market = reader.word(entry.get("market"), f"{path}.market", MARKETS)
    pack = reader.word(entry.get("pack"), f"{path}.pack", PACKS)
    net_g = _number(reader, entry.get("carton_net_g"), f"{path}.carton_net_g", 0.0, 100000.0)
    units = reader.whole(entry.get("units_per_carton"), f"{path}.units_per_carton", 1, 1000)
    if presentation is None or state is None or market is None or net_g is None or units is None:
        return None
    return Ordered(
        id=reader.text(entry.get("id"), f"{path}.id"),
        name=reader.text(entry.get("name"), f"{path}.name"),
        species_code=reader.text(entry.get("species_code"), f"{path}.species_code"),
        presentation=presentation,
        state=state,
        grade=reader.text(entry.get("grade"), f"{path}.grade"),
        carton_net_g=net_g,
        units_per_carton=units,
        declared_glaze_percent=_number(
            reader, entry.get("declared_glaze_percent"), f"{path}.declared_glaze_percent", -1e-9, 99.0
        ),
        origin=tuple(text for text in (reader.text(one, f"{path}.origin") for one in origin) if text),
        method=reader.word(entry.get("method"), f"{path}.method", choices_of("method")),
        market=market,
        pack=pack or ("sealed_bags" if units > 1 and presentation in PEELED else "lined_carton"),
        min_life_share=_number(reader, entry.get("min_life_share"), f"{path}.min_life_share", -1e-9, 1.0),
        overrides=overrides or {},
    )


def specifications_from_json(values: Any) -> tuple[dict[str, Ordered], list[Unusable]]:
    """Specification versions by id, and what could not be used of them.

    Parameters
    ----------
    values : list of dict

    Returns
    -------
    tuple of (dict, list of Unusable)
        When an id comes twice the first one counts.
    """
    reader = Reader()
    by_id: dict[str, Ordered] = {}
    for i, value in enumerate(reader.items(values, "specifications") or []):
        ordered = _ordered(reader, value, f"specifications[{i}]")
        if ordered is not None and ordered.id not in by_id:
            by_id[ordered.id] = ordered
    return by_id, reader.unusable
