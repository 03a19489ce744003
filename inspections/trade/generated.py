"""Made-up inspections, seeded, for comparing the two runtimes and for load.

Most are sound, many lie on a limit, some lack keys, some hold entries that no scale or probe can show, and
a few are not built as a document at all. The same seed gives the same inspections on every machine.
"""

from __future__ import annotations

import copy
import random
from collections.abc import Iterator
from typing import Any, TypeVar

from . import carton_facts as known
from . import facts as delivered
from .limits import DEFAULT_LIMITS, LATER, RETIRED
from .registry import BY_NAME, Check, checks_on, choices_of
from .species import TABLE

_Value = TypeVar("_Value")
_GRADES = ("16/20", "16-20", "u/10", "U15", "21/25 lb", "30/40 per kg", "6-10 to the pound", "soft and broken", "big")
# The first five are within; then the end points of the three bounds and one step past each, without and with the
# allowance for a reading between packs.
_TEMPERATURES = (
    *("-25", "-20,5", "-18", "-18.0", "-18,5", "-17,9", "-15.0", "-14.9", "-13.0", "-12.9", "-12.0", "-11.9"),
    *("-10.0", "-9.9", "-9.5", "4.5", "19.5", "12", "-14.0"),
)
_ICE_POINTS = ("0.0", "0,1", "-0.4", "0.6", "1.0", "1.1", "-1.0", "-2.5", "33")
# Declared units of 1 kg to 12 kg; then small ones, where the tables have other rows or none.
_CARTONS_G = (10000, 9071.8474, 12000.5, 10000)
_SMALL_CARTONS_G = (3000, 2720, 40, 8, 25000)
_BAD_ENTRIES = ("", " ", "abc", "1.2.3", "-", "1e5", "99999999", "١٢", "−17,5", "12 0", "0", "-3", "1.0,5", "1,250")
_DAYS = (
    "2026-11-25",
    "2028-01-14",
    "2027-02-28",
    "2027-02-29",
    "2028-02-29",
    "2026-13-01",
    "2026-11-24",
    "",
    "0000-01-01",
    "9999-12-31",
    "soon",
)
_MARKETS = ("EU", "US", "ANZ", "CODEX")
_SHOWN = [name for name in known.PARTICULARS if name != "sulphites"]
_ODD_VALUES: tuple[Any, ...] = (None, "", 0, -1, 1.5, 3.0, 10**9, True, False, [], {}, "other", [None], {"entered": 5})
_PLANS = (
    "house",
    "codex_1",
    "codex_2",
    "iso_s2",
    "iso_s3",
    "iso_1",
    "iso_2",
    "iso_1_double",
    "iso_2_double",
    "other",
    "",
)
_LEFT_OUT = ("odour", "net_weight", "marks", "product_readings", "black_spot", "count", "liner", "", "other")
# Share of the declared weight that is found: at and past T1, T2 and the MAV of 2 kg, and two units on the scale.
_FOUND = (0.96, 0.97, 0.9699, 0.985, 0.9849, 0.9728, 0.9727, 1.0, 1.6)
_OVERRIDDEN = (
    *("product_c.reject", "black_spot_share", "life_share", "unknown", "count", "net_unit.t2"),
    *("net_unit_short_percent", "product_c.between_packs"),
)
_OVERRIDES = (-12, -10.5, 0.05, 0.25, 3, "x")


class Generator:
    """Makes one inspection after another from a seed."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)
        self.odd = 0.0
        self.found = 1.01

    def case(self) -> dict[str, Any]:
        """One case: document, specifications and limits, as the judgement takes them."""
        self.odd = self._one((0.0, 0.005, 0.01, 0.02, 0.05, 0.3, 1.0))
        specifications = [self._specification(i) for i in range(self.random.randint(1, 3))]
        document = self._document(specifications)
        if self._chance(0.2):
            self._spoil(document)
        if self._chance(0.05):
            self._spoil(specifications)
        limits = self._limits() if self._chance(0.2) else DEFAULT_LIMITS
        return {"document": document, "specifications": specifications, "limits": limits}

    def _chance(self, share: float) -> bool:
        return self.random.random() < share

    def _one(self, values: Any) -> Any:
        return self.random.choice(values)

    def _usual(self, usual: Any, others: Any) -> Any:
        """Mostly what a sound delivery has; something else as often as this case is odd."""
        return self._one(others) if self._chance(self.odd) else usual

    def _maybe(self, value: _Value, share: float = 0.8) -> _Value | None:
        return value if self._chance(share) else None

    def _specification(self, number: int) -> dict[str, Any]:
        overrides = {self._one(_OVERRIDDEN): self._one(_OVERRIDES)}
        return {
            "id": f"s{number}",
            "name": self._one(("Whiteleg, headless shell-on 16/20", "Giant tiger, head-on", "")),
            "species_code": self._usual("PNV", ("GIT", "LAA", "XYZ")),
            "presentation": self._usual("HLSO", choices_of("presentation")),
            "state": self._usual("raw", choices_of("state")),
            "grade": self._usual("16/20", _GRADES),
            "carton_net_g": self._usual(self._one(_CARTONS_G), _SMALL_CARTONS_G),
            "units_per_carton": self._one((1, 5, 6, 10)),
            "declared_glaze_percent": self._usual(10, (None, 0, 20.5)),
            "origin": self._one(([], ["EC"], ["EC", "IN"])),
            "method": self._one((None, *choices_of("method"))),
            "market": self._one(_MARKETS),
            "pack": self._usual(None, ("lined_carton", "sealed_bags", "", "other")),
            "min_life_share": self._one((None, 0.6667, 0.5)),
            "overrides": overrides if self._chance(0.15) else {},
        }

    def _document(self, specifications: list[dict[str, Any]]) -> dict[str, Any]:
        lines = [self._line(i, self._one(specifications)) for i in range(self.random.randint(0, 3))]
        return {
            "schema": 1,
            "id": "d",
            "limits_id": "x",
            "docket_number": self._one(("DN-5530", "", "7")),
            "arrived_at": self._one(("2026-11-25T06:10:00+11:00", "2026-11-25", "", "yesterday")),
            "vehicle": {
                "air": self._maybe(self._temperature()),
                "thermometer": self._thermometer(),
                "load": self._load(),
            },
            "lines": lines,
            "photos": [],
        }

    def _load(self) -> Any:
        """None, some or all signs; now and then one word, as documents held it earlier."""
        check = BY_NAME["load"]
        signs = list(check.choices)
        one = self._one(signs)
        return self._one((None, [], check.none, one, [one], signs[:2], signs[::-1], ["other"], "other"))

    def _line(self, number: int, specification: dict[str, Any]) -> dict[str, Any]:
        docket = self.random.randint(0, 60)
        self.found = self._one((1.01, 1.01, 1.01, *_FOUND[:-1]))
        counted = self._usual(docket, (docket, max(0, docket - 1), docket + 1, None))
        opened = self._usual(min(6, docket), range(min(6, docket + 1) + 1))
        plan = self._usual("house", _PLANS)
        more = self._usual("", ("No time.", "", 5))
        sampling = {
            "declined": more,
            "plan": plan,
            "n": self._usual(3, range(9)),
            "acceptance": self._usual(0, range(3)),
        }
        return {
            "id": f"l{number}",
            "specification_id": specification["id"] if self._chance(0.95) else "gone",
            "cartons_on_docket": docket,
            "cartons_counted": counted,
            "lot": self._usual("PRN-24A", ("", "prn-24 a")),
            "sampling": self._maybe(sampling),
            "cartons": self._cartons(opened, specification),
            "sorted": self._maybe({"read": self._one((1, 6, docket)), "differ": self._one((0, 1, 6, docket))}, 0.15),
            "left_out": self._left_out(),
            "decision": self._decision(counted) if self._chance(0.3) else None,
        }

    def _cartons(self, opened: int, specification: dict[str, Any]) -> list[dict[str, Any]]:
        """Opened cartons; now and then all of them have the same fault, as bad lots do."""
        cartons = [self._carton(i, specification) for i in range(opened)]
        if cartons and self._chance(0.2):
            shared = self._one(
                ("pieces", "temperature", "label", "liner", "refreezing", "odour", "sample", "looked_at")
            )
            for carton in cartons:
                if shared in cartons[0]:
                    carton[shared] = copy.deepcopy(cartons[0][shared])
        return cartons

    def _left_out(self) -> list[dict[str, Any]] | None:
        number = self._usual(0, (0, 1, 2, 3))
        told: list[dict[str, Any]] = [
            {"check": self._one(_LEFT_OUT), "reason": self._one(("No water.", "No time.", ""))} for _ in range(number)
        ]
        return self._maybe(told)

    def _decision(self, counted: int | None) -> dict[str, Any]:
        whole = counted or 0
        refused = self.random.randint(0, whole)
        off = self._one((0, 0, 0, 1))
        kind = self._one(delivered.DECISIONS)
        return {"kind": kind, "accepted": whole - refused + off, "refused": refused, "held": 0}

    def _temperature(self) -> dict[str, Any]:
        if self._chance(0.15):
            return {"entered": f"{self.random.uniform(-15.0, self._usual(-0.4, (35.0,))):.1f}", "unit": "F"}
        if self._chance(0.3 * self.odd):
            return {"entered": self._one(_BAD_ENTRIES), "unit": self._one(("C", "F", "g", "K"))}
        return {"entered": self._usual(self._one(_TEMPERATURES[:5]), _TEMPERATURES), "unit": "C"}

    def _thermometer(self) -> dict[str, Any] | None:
        """How a thermometer stood: mostly passed, else overdue, failed, unchecked, in doubt, or not known."""
        if self._chance(0.1):
            return None
        return {
            "name": self._one(("Probe 2", "")),
            "checked_at": self._usual("2026-11-20", ("2026-10-25", "2026-10-26T06:00:00Z", None, "", *_DAYS)),
            "ice_point": self._maybe({"entered": self._usual("0.1", _ICE_POINTS), "unit": "C"}, 1.0 - self.odd),
            "due_at": self._usual(None, ("2026-11-24", "2026-11-25", "2027-01-01", *_DAYS)),
        }

    def _probed(self) -> dict[str, Any]:
        return {
            "product": self._temperature(),
            "method": self._usual("between_packs", (*known.PROBES, "", None)),
            "is_above_zero": self._usual(False, (True, False, None, "yes")),
            "thermometer": self._thermometer(),
        }

    def _drying(self) -> dict[str, Any] | None:
        """Deep drying by weight or by the surface of a block, at the limit and past it; mostly not measured."""
        if not self._chance(0.2):
            return None
        dried = {"entered": self._usual("96", ("0", "100", "100.1", "101", "1001", "-1")), "unit": "g"}
        surface = {"entered": self._usual("8", ("0", "10", "10.1", "100", "101")), "unit": "percent"}
        return {
            "dried": self._maybe(dried, 0.6),
            "of": self._maybe({"entered": "1", "unit": "kg"}),
            "block_surface": self._maybe(surface, 0.5),
        }

    def _mass(self, grams: float, spread: float = 0.05) -> dict[str, Any]:
        if self._chance(0.2 * self.odd):
            return {"entered": self._one(_BAD_ENTRIES), "unit": self._one(("g", "kg", "lb", "C"))}
        value = grams * (1.0 + self.random.uniform(-spread, spread)) if self._chance(0.8) else grams
        unit, size = self._one((("g", 1.0), ("g", 1.0), ("kg", 1000.0), ("lb", 453.59237), ("oz", 28.349523125)))
        text = f"{value / size:.1f}" if unit == "g" else f"{value / size:.4f}"
        return {"entered": text.replace(".", self._one((".", ","))), "unit": unit}

    def _plain(self, looked_at: int) -> dict[str, Any]:
        """Answers to the plain checks of a carton, mostly sound."""
        entries: dict[str, Any] = {}
        for check in checks_on("carton"):
            if check.type in ("choice", "flags", "score"):
                entries[check.at] = self._answer(check)
            elif check.type == "pieces" and not self._chance(0.25 * self.odd):
                share = self._usual(0.0, (0.0, 0.02, 0.05, 0.1, 0.25, 0.26, 1.0))
                holder, _, key = check.at.rpartition(".")
                entries.setdefault(holder, {})[key] = int(looked_at * share + 0.5) + self._usual(0, (0, 0, 1))
        return entries

    def _answer(self, check: Check) -> Any:
        words = list(check.choices)
        if check.type == "score":
            return self._usual(check.scores[1], (*check.scores, check.scores[-1] - 1))
        if check.type == "flags":
            return self._usual([], ([], words[:1], [*words[1:], words[-1]]))
        return self._usual(words[0], words)

    def _label(self, specification: dict[str, Any]) -> dict[str, Any]:
        species = self._one(TABLE["species"])
        is_as_ordered = not self._chance(0.5 * self.odd)
        return {
            "source": "typed",
            "scan": self._one(("", "]C101...")),
            "species_code": specification["species_code"] if is_as_ordered else species["code"].lower() + " ",
            "scientific_name": self._usual("", (species["scientific_name"], *species["split_names"])),
            "presentation": specification["presentation"]
            if is_as_ordered
            else self._one(("", *choices_of("presentation"))),
            "state": specification["state"] if is_as_ordered else self._one(("", *choices_of("state"))),
            "grade": specification["grade"] if is_as_ordered else self._one(_GRADES),
            "net": self._maybe(self._mass(specification["carton_net_g"], 0.0)),
            "lot": self._usual("PRN-24A", ("", "ABC17280331", "OTHER")),
            "production_date": self._usual("2026-01-15", _DAYS),
            "frozen_on": self._usual("2026-01-16", _DAYS),
            "best_before": self._usual("2029-01-14", _DAYS),
            "origin": self._usual("EC", ("ec ", "", "TH")),
            "method": self._usual(specification["method"] or "", (*choices_of("method"), "")),
            "shows": list(self._usual(_SHOWN, (_SHOWN[4:], _SHOWN[:5], [*_SHOWN, "sulphites"], _SHOWN[::2]))),
        }

    def _carton(self, number: int, specification: dict[str, Any]) -> dict[str, Any]:
        unit_g = specification["carton_net_g"] / specification["units_per_carton"]
        looked_at = self._one((5, 12, 20, 40, 46, 100))
        carton = {
            "id": f"c{number}",
            "position": self._one((number + 1, number + 7, None)),
            "label": self._label(specification),
            **self._plain(looked_at),
            "refreezing": self._usual(
                [], ([], ["ice_pool"], ["clumped"], ["clumped"], ["clumped", "deformed", "clumped"])
            ),
            "odour_taken": self._usual("thawed", (*choices_of("odour_taken"), None, "other")),
            "temperature": self._probed(),
            "looked_at": looked_at,
            "dehydration": self._drying(),
            "weights": {
                "gross": self._mass(unit_g * 1.2),
                "tare": self._mass(100.0),
                "glazed": self._mass(unit_g * 1.13, 0.02),
                "deglazed": self._mass(unit_g * self._usual(self.found, _FOUND), self._one((0.0, 0.02))),
            },
            "sample": self._sample(),
            "marks": {"answer": self._usual("agree", known.ANSWERS)},
        }
        if carton["refreezing"] == ["clumped"] and self._chance(0.5):
            carton["frost"] = "heavy"
        return {name: value for name, value in carton.items() if not self._chance(0.2 * self.odd)}

    def _sample(self) -> dict[str, Any]:
        pieces = self._usual(80, range(1, 121))
        weight_g = pieces * 453.59237 / self._usual(18.0, (10.0, 15.0, 18.0, 20.4, 20.5, 22.0, 25.0, 40.0))
        sample = {
            "pieces": pieces,
            "weight": self._mass(weight_g, 0.02),
            "weight_is": self._usual("deglazed", known.WEIGHT_KINDS),
            "largest": self._mass(weight_g * 0.12, self._usual(0.02, (0.1,))),
            "smallest": self._mass(weight_g * 0.085, self._usual(0.02, (0.1,))),
        }
        return {name: value for name, value in sample.items() if not self._chance(0.3 * self.odd)}

    def _limits(self) -> dict[str, Any]:
        limits = copy.deepcopy(DEFAULT_LIMITS)
        for _ in range(self.random.randint(1, 4)):
            limit = self._one(limits["limits"])
            if limit["bound"] is not None:
                limit["bound"] = limit["bound"] * self._one((0.5, 0.9, 1.1, 2.0))
            if self._chance(0.3):
                limit["severity"] = self._one(("critical", "major", "minor", "note", "odd"))
        if self._chance(0.2):
            self._age(limits)
        if self._chance(0.1):
            self._spoil(limits)
        return limits

    def _age(self, limits: dict[str, Any]) -> None:
        """A set as it was published before later limits existed."""
        kept = [limit for limit in limits["limits"] if limit["code"] not in LATER]
        limits["limits"] = [*kept, {"code": RETIRED[0], "bound": 3.0}]

    def _spoil(self, value: Any) -> None:
        """Take a key away, or put something odd in its place, somewhere inside."""
        while True:
            keys = list(value) if isinstance(value, dict) else list(range(len(value)))
            if not keys:
                return
            key = self._one(keys)
            inner = value[key]
            if isinstance(inner, (dict, list)) and inner and self._chance(0.8):
                value = inner
                continue
            if isinstance(value, dict) and self._chance(0.4):
                del value[key]
            else:
                value[key] = copy.deepcopy(self._one(_ODD_VALUES))
            return


def cases(count: int, seed: int) -> Iterator[dict[str, Any]]:
    """So many made-up cases.

    Parameters
    ----------
    count : int
    seed : int
        The same seed gives the same cases.

    Yields
    ------
    dict
        ``document``, ``specifications``, ``limits``.
    """
    generator = Generator(seed)
    for _ in range(count):
        yield generator.case()
