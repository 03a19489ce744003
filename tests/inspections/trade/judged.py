"""Deliveries that a practitioner judged first: what a fair, experienced receiver would do. Common practice, no source.

``GIVEN`` are the 25 of the practitioner; ``OWN`` were written down, with what a receiver would do and why, before the
judgement was run on them. Twenty cartons of headless shell-on 16/20, three opened by the house plan, all else in order,
unless a row says otherwise.
"""

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

GIVEN = [
    row("all good", delivery(), ACCEPT, "", split=(20, 0, 0)),
    row(
        "peeled, loose-frozen in sealed inner bags, no carton liner, by design",
        delivery(*all_of({**PD, "liner": "missing"})),
        ACCEPT,
        "the sealed bag is the barrier",
        split=(20, 0, 0),
        ordered=BAG_PD,
    ),
    row(
        "the same, liner not asked",
        delivery(*all_of({**PD, "liner": None})),
        ACCEPT,
        "not a question for this pack",
        split=(20, 0, 0),
        ordered=BAG_PD,
    ),
    row(
        "one liner torn of three opened, prawns perfect",
        delivery(*one_of({"liner": "torn"})),
        (ACCEPT, ALLOWANCE),
        "a liner protects; nothing has burned yet",
        "LINER-TORN",
        (20, 0, 0),
    ),
    row(
        "one of three: 5 of 40 with small spots",
        delivery(*one_of(SPOTS)),
        (NOT_YET, ALLOWANCE),
        "one carton is not the drop",
        "BLACK-HOUSE",
    ),
    row(
        "all three: wide black spot on 14 of 40",
        delivery(*all_of(WIDE)),
        REJECT,
        "seen in every carton",
        "BLACK-CODEX",
        (0, 20, 0),
    ),
    row(
        "one carton -14.9 at the core, others -19.5",
        delivery(*cold("-14.9", "-19.5", "-19.5")),
        (HOLD, NOT_YET),
        "one reading; door carton",
        "TEMP-OUTSIDE",
        (0, 0, 20),
    ),
    row("all three -8 at the core", delivery(*cold("-8", "-8", "-8")), REJECT, "", "TEMP-REJECT", (0, 20, 0)),
    row(
        "one loose-frozen bag slightly clumped, no pooled ice",
        delivery(*one_of({"refreezing": ["clumped"]})),
        (ACCEPT, ALLOWANCE, NOT_YET),
        "clumping alone is weak",
        "CLUMPED",
        (20, 0, 0),
    ),
    row(
        "count 22.7 to the pound on 16/20, in all",
        delivery(*all_of(counted(88, "1760"))),
        (ALLOWANCE, REJECT),
        "price of the size delivered",
        "COUNT-BEYOND",
        (20, 0, 0),
    ),
    row(
        "count 20.3 on 20 pieces",
        delivery(*all_of(counted(20, "447"))),
        (ACCEPT, NOT_YET),
        "weigh more",
        "COUNT-UNSURE",
    ),
    row(
        "net 1,935 of 2,000 in one, the others over",
        delivery(*one_of(net("1935"))),
        (ACCEPT, ALLOWANCE),
        "single unit, mean is right",
        "NET-UNIT",
        (20, 0, 0),
    ),
    row(
        "two cartons short of the docket",
        delivery(cartons_counted=18),
        ALLOWANCE,
        "sign for what came",
        "CARTONS-SHORT",
        (18, 0, 0),
    ),
    row(
        "one of three labelled another species",
        delivery(*one_of({"label": label(species_code="GIT")})),
        (HOLD, NOT_YET, ALLOWANCE),
        "a mixed pallet is sorted",
        "SPECIES-LABEL",
    ),
    row(
        "off smell in one of three, thawed",
        delivery(*one_of({"odour": "off", "odour_taken": "thawed"})),
        (REJECT, HOLD),
        "",
        "ODOUR-OFF",
        (0, 0, 20),
    ),
    row(
        "glass",
        delivery(*one_of({"foreign_matter": "hazard"})),
        HOLD,
        "no plan clears it",
        "FOREIGN-HAZARD",
        (0, 0, 20),
    ),
    row(
        "best before passed on all",
        delivery(*all_of({"label": label(best_before="2026-11-01")})),
        REJECT,
        "",
        "DATE-PAST",
        (0, 20, 0),
    ),
    row(
        "no lot, no date, no producer on any carton",
        delivery(*all_of(shows("lot", "date", "producer"))),
        (HOLD, NOT_YET, REJECT),
        "cannot be traced; local law",
        "LABEL-TRACE",
        (0, 0, 20),
    ),
    row(
        "whole tigers, heads loose or off on 16 of 40 in all",
        delivery(*all_of({**WHOLE, **pieces(heads=16)})),
        (REJECT, ALLOWANCE),
        "head-on is what was paid for",
        "HEADS-WHOLE",
        (0, 20, 0),
        TIGER,
    ),
    row(
        "smell, foreign matter, marks, weight, freezer burn, broken, soft unchecked",
        delivery(*all_of(UNCHECKED)),
        NOT_YET,
        "unchecked is not a pass",
    ),
    row(
        "12 of 40 spotted in one, two cartons short, net 1,950 in all",
        delivery(
            *[carton(3 + k, **net("1950"), **pieces(black_spot=12 if k == 0 else 1)) for k in range(3)],
            cartons_counted=18,
        ),
        (ALLOWANCE, NOT_YET),
        "value for weight and shortage, look more for the spot",
        "BLACK-HOUSE",
    ),
    row(
        "only surface readings by infrared",
        delivery(*cold("-19.5", "-19.5", "-19.5", method="surface")),
        (NOT_YET, HOLD),
        "probe",
        "TEMP-SURFACE",
    ),
    row(
        "cooked on the label, raw ordered, all",
        delivery(*all_of({"label": label(state="cooked")})),
        REJECT,
        "",
        "LABEL-STATE",
        (0, 20, 0),
    ),
    row(
        "one of three labelled 21/25 for 16/20",
        delivery(*one_of({"label": label(grade="21/25")})),
        (ALLOWANCE, NOT_YET, HOLD),
        "sort by label",
        "LABEL-GRADE",
    ),
    row(
        "tails missing on 12 of 40, all",
        delivery(*all_of(pieces(tails=12))),
        ALLOWANCE,
        "price of the lower quality",
        "TAILS",
        (20, 0, 0),
    ),
    row(
        "+19.5 typed in one carton, others -19.5",
        delivery(*cold("19.5", "-19.5", "-19.5")),
        (NOT_YET, HOLD),
        "a slip of the thumb, not a thaw",
        "TEMP-SIGN",
    ),
]

OWN = [
    row(
        "whole tigers, heads loose on 16 of 40 in one",
        delivery(*[carton(3, **WHOLE, **pieces(heads=16)), carton(4, **WHOLE), carton(5, **WHOLE)]),
        NOT_YET,
        "one carton is not the drop",
        ordered=TIGER,
    ),
    row(
        "whole tigers, legs off 3 of 40 in all",
        delivery(*all_of({**WHOLE, **pieces(legs=3)})),
        (ACCEPT, ALLOWANCE),
        "a few legs come off in any block",
        ordered=TIGER,
    ),
    row(
        "whole tigers, heads dark or loose on 10 of 40 in all",
        delivery(*all_of({**WHOLE, **pieces(heads=10)})),
        (REJECT, ALLOWANCE),
        "a quarter of the heads",
        ordered=TIGER,
    ),
    row("whole tigers, sound", delivery(*all_of(WHOLE)), ACCEPT, "", ordered=TIGER),
    row(
        "cooked and peeled, sound",
        delivery(*all_of({**PD, "label": label(presentation="PUD", state="cooked", grade="31/40"), "liner": None})),
        ACCEPT,
        "",
        ordered={**BAG_PD, "presentation": "PUD", "state": "cooked"},
    ),
    row(
        "raw on the label, cooked ordered, all",
        delivery(*all_of({**PD, "label": label(presentation="PD", grade="31/40")})),
        REJECT,
        "needs another kitchen step; not what was ordered",
        ordered={**BAG_PD, "state": "cooked"},
    ),
    row(
        "peeled, black on the meat of 1 of 40 in one",
        delivery(*[carton(3, **PD, **pieces(black_spot=1, black_spot_meat=1)), carton(4, **PD), carton(5, **PD)]),
        (NOT_YET, ALLOWANCE),
        "one prawn; look on",
        ordered=BAG_PD,
    ),
    row(
        "peeled, black on the meat of 4 of 40 in all",
        delivery(*all_of({**PD, **pieces(black_spot=4, black_spot_meat=4)})),
        REJECT,
        "nil on peeled meat, and it is in every carton",
        ordered=BAG_PD,
    ),
    row(
        "peeled, legs left on 3 of 40 in all",
        delivery(*all_of({**PD, **pieces(legs=3)})),
        (ACCEPT, ALLOWANCE),
        "picked off at the bench",
        ordered=BAG_PD,
    ),
    row(
        "soft and broken ordered and delivered",
        delivery(*all_of({**SALVAGE, **pieces(broken=22, soft=12, heads=4, tails=9)})),
        ACCEPT,
        "that is the grade",
        ordered=BROKEN,
    ),
    row(
        "soft and broken, off smell in all",
        delivery(*all_of({**SALVAGE, "odour": "off"})),
        (REJECT, HOLD),
        "a low grade still has to be sound",
        ordered=BROKEN,
    ),
    row(
        "soft and broken, black on the meat of 20 of 40 in all",
        delivery(*all_of({**SALVAGE, **pieces(black_spot=20, black_spot_meat=20)})),
        (REJECT, ALLOWANCE),
        "half of it dark",
        ordered=BROKEN,
    ),
    row("one carton, sound", lot(1, one_of({}, 1)), ACCEPT, ""),
    row("one carton, wide black spot on 20 of 40", lot(1, one_of(MANY, 1)), REJECT, "all of it was seen"),
    row("one carton, liner torn, sound", lot(1, one_of({"liner": "torn"}, 1)), (ACCEPT, ALLOWANCE), "use it first"),
    row("one carton at -14", lot(1, cold("-14")), HOLD, "somebody decides"),
    row("three cartons, two opened, one bad", lot(3, one_of(MANY, 2)), NOT_YET, "open the third"),
    row(
        "three cartons, all opened, one bad",
        lot(3, one_of(MANY, 3)),
        ALLOWANCE,
        "refuse it, take the others",
        split=(2, 1, 0),
    ),
    row("three cartons, all opened, all bad", lot(3, all_of(MANY, 3)), REJECT, ""),
    row(
        "three cartons, all opened, one at -14.9",
        lot(3, cold("-14.9", "-19", "-19.5")),
        (HOLD, ALLOWANCE),
        "hold that one; the others were probed",
    ),
    row("eight cartons, two opened, both bad", lot(8, all_of(MANY, 2)), REJECT, "seen in every carton"),
    row(
        "eight cartons, one soft, two more opened clean",
        lot(8, one_of(pieces(soft=10), 4)),
        ALLOWANCE,
        "refuse the one",
        split=(7, 1, 0),
    ),
    row("eight cartons, four opened, two bad", lot(8, one_of(MANY, 4, 2)), (REJECT, HOLD), "half of what was opened"),
    row("fifty cartons, five opened, one bad", lot(50, one_of(MANY, 5)), NOT_YET, "open more"),
    row("fifty cartons, ten opened, one bad", lot(50, one_of(MANY, 10)), ALLOWANCE, "refuse it", split=(49, 1, 0)),
    row("fifty cartons, five opened, three bad", lot(50, one_of(MANY, 5, 3)), REJECT, "more bad than good"),
    row(
        "two hundred cartons, six opened, one bad",
        lot(200, one_of(MANY, 6)),
        ALLOWANCE,
        "the plan allows one",
        split=(199, 1, 0),
    ),
    row(
        "two hundred cartons, six opened, two bad",
        lot(200, one_of(MANY, 6, 2)),
        (NOT_YET, REJECT, HOLD),
        "look further",
    ),
    row("two hundred cartons, six opened, all bad", lot(200, all_of(MANY, 6)), REJECT, ""),
    row(
        "pooled ice and bent blocks in one, -19.5",
        delivery(*one_of({"refreezing": ["ice_pool", "deformed"]})),
        (HOLD, NOT_YET, REJECT),
        "thawed and frozen again; how many more?",
    ),
    row("pooled ice in all", delivery(*all_of({"refreezing": ["ice_pool"]})), REJECT, "thaw of unknown length"),
    row(
        "clumped and heavily frosted in one",
        delivery(*one_of({"refreezing": ["clumped"], "frost": "heavy"})),
        (HOLD, NOT_YET, ALLOWANCE),
        "two weak signs together: probe, ask for the logger",
    ),
    row(
        "clumped in all, nothing else",
        delivery(*all_of({"refreezing": ["clumped"]})),
        (ALLOWANCE, NOT_YET, HOLD),
        "loose-frozen was paid for",
    ),
    row("-13 at the core in all", delivery(*cold("-13", "-13", "-13")), (HOLD, REJECT), "out of tolerance"),
    row(
        "-16 at the core in all",
        delivery(*cold("-16", "-16", "-16")),
        (ACCEPT, ALLOWANCE),
        "inside transport tolerance",
    ),
    row("-9 at the core in one, others -20", delivery(*cold("-9", "-20", "-20")), (HOLD, NOT_YET), "probe it again"),
    row("-9 at the core in two of three", delivery(*cold("-9", "-9", "-20")), (REJECT, HOLD), "no slip of one reading"),
    row(
        "-13.5 between packs in all",
        delivery(*cold("-13.5", "-13.5", "-13.5", method="between_packs")),
        (NOT_YET, HOLD),
        "too warm to sign on a reading through the packing: the core",
    ),
    row("+5 in all", delivery(*cold("5", "5", "5")), REJECT, "thawed"),
    row("+18 in all", delivery(*cold("18", "18", "18")), (NOT_YET, HOLD), "three times the same slip"),
    row(
        "one infrared reading of -5, two probed",
        delivery(carton(3, temperature=probed("-5", "surface")), carton(11), carton(17)),
        (NOT_YET, HOLD),
        "probe that carton",
    ),
    row(
        "nothing checked but the temperature",
        delivery(*[{"id": f"c{k}", "position": k, "temperature": COLD} for k in (3, 11, 17)]),
        NOT_YET,
        "unchecked is not a pass",
    ),
    row(
        "nothing checked but liner and label",
        delivery(*[{"id": f"c{k}", "position": k, "liner": "closed", "label": label()} for k in (3, 11, 17)]),
        NOT_YET,
        "unchecked is not a pass",
    ),
    row("smell taken in no carton", delivery(*all_of({"odour": None})), NOT_YET, "first thing that tells decay"),
    row(
        "smell taken in no carton, the receiver says why",
        delivery(*all_of({"odour": None}), left_out=[{"check": "odour", "reason": "No running water at the dock."}]),
        (ACCEPT, ALLOWANCE),
        "and the docket says so",
    ),
    row(
        "weighed in one carton only",
        delivery(carton(3), carton(11, weights={}, sample=None), carton(17, weights={}, sample=None)),
        ACCEPT,
        "one weighed unit is what a kitchen has time for",
    ),
    row(
        "1 of 5 looked at spotted in one, others clean",
        delivery(*one_of(pieces(5, black_spot=1))),
        NOT_YET,
        "five prawns tell nothing",
    ),
    row("0 of 5 looked at in each", delivery(*all_of(pieces(5))), NOT_YET, "fifteen prawns of 200 kg"),
    row(
        "5 of 5 with wide spots in one",
        delivery(*one_of(pieces(5, black_spot=5, black_spot_wide=5))),
        (NOT_YET, ALLOWANCE),
        "that carton is bad; are others?",
    ),
    row("5 of 40 with small spots in all", delivery(*all_of(SPOTS)), (ALLOWANCE, REJECT), "a little over, everywhere"),
    row(
        "20 of 40 with small spots in all",
        delivery(*all_of(pieces(black_spot=20))),
        (REJECT, ALLOWANCE),
        "half of it spotted",
    ),
    row(
        "another lot on the labels than on the docket, all",
        delivery(*all_of({"label": label(lot="L9")})),
        (HOLD, NOT_YET, ALLOWANCE),
        "papers and goods do not match",
    ),
    row(
        "no lot on one of three labels",
        delivery(*one_of(shows("lot"))),
        (NOT_YET, HOLD, ALLOWANCE),
        "look at the others",
    ),
    row("crustacean not named, all", delivery(*all_of(shows("crustacean"))), (HOLD, REJECT), "allergen"),
    row(
        "5 kg on the label for 10 kg ordered, all",
        delivery(*all_of({"label": label(net={"entered": "5", "unit": "kg"})})),
        (ALLOWANCE, HOLD, REJECT),
        "half the weight",
    ),
    row(
        "count 13.2 for 16/20 in all", delivery(*all_of(counted(59, "2027"))), ACCEPT, "larger than ordered is no loss"
    ),
    row(
        "13/15 on the label for 16/20, all",
        delivery(*all_of({"label": label(grade="13/15")})),
        (ACCEPT, HOLD, ALLOWANCE),
        "larger than ordered, if the kitchen can plate it",
    ),
    row(
        "farmed on the label, caught ordered, all",
        delivery(),
        (REJECT, HOLD),
        "another thing on the menu",
        ordered={"method": "caught"},
    ),
    row(
        "best before passed on one of three",
        delivery(*one_of({"label": label(best_before="2026-11-01")})),
        (NOT_YET, HOLD, ALLOWANCE),
        "sort by date",
    ),
    row(
        "half of its life left for two thirds, all",
        delivery(*all_of({"label": label(production_date="2025-11-25", best_before="2027-11-25")})),
        (ALLOWANCE, REJECT, HOLD),
        "a year is enough for a kitchen, at a price",
    ),
    row(
        "glaze 25 % for 10 % declared, net right",
        delivery(*all_of({"weights": {"glazed": grams("2700"), "deglazed": grams("2020")}})),
        (ACCEPT, ALLOWANCE),
        "the prawns are there",
    ),
    row("net 8 % short in all", delivery(*all_of(net("1840"))), (ALLOWANCE, REJECT), "pay for what is there"),
    row("a hair in one of three", delivery(*one_of({"foreign_matter": "harmless"})), (NOT_YET, ALLOWANCE), "look more"),
    row("hairs in all three", delivery(*all_of({"foreign_matter": "harmless"})), (REJECT, HOLD), "a dirty packer"),
    row(
        "glass in one, another species in another",
        delivery(carton(3, foreign_matter="hazard"), carton(11, label=label(species_code="GIT")), carton(17)),
        HOLD,
        "the hazard first",
    ),
    row("chemical smell in one", delivery(*one_of({"odour": "chemical"})), HOLD, "hazard"),
    row(
        "torn liner and freezer burn on 12 of 40 in one, two short",
        delivery(*one_of({"liner": "torn", **pieces(dehydrated=12)}), cartons_counted=18),
        (NOT_YET, ALLOWANCE),
        "one carton burned",
    ),
    row(
        "liner missing and freezer burn on 10 of 40, all",
        delivery(*all_of({"liner": "missing", **pieces(dehydrated=10)})),
        REJECT,
        "burned through",
    ),
    row(
        "liner missing in all, nothing burned",
        delivery(*all_of({"liner": "missing"})),
        (ALLOWANCE, HOLD, NOT_YET, ACCEPT),
        "rewrap or use first",
    ),
    row(
        "marks disagree in one",
        delivery(*one_of({"marks": {"answer": "disagree"}})),
        (HOLD, NOT_YET),
        "settle it first",
    ),
    row(
        "largest tenth 2.1 times the smallest, all",
        delivery(
            *all_of(
                {
                    "sample": {
                        "pieces": 78,
                        "weight": grams("2010"),
                        "weight_is": "deglazed",
                        "largest": grams("294"),
                        "smallest": grams("140"),
                    }
                }
            )
        ),
        (ALLOWANCE, ACCEPT),
        "uneven",
    ),
    row("tails broken on 2 of 40 in one", delivery(*one_of(pieces(tails=2))), (ACCEPT, ALLOWANCE), "chance"),
    row(
        "another species in one, the driver will not wait",
        delivery(
            *one_of({"label": label(species_code="GIT")}),
            sampling={
                "plan": "house",
                "n": 3,
                "acceptance": 0,
                "seed": "x",
                "positions": [3, 4, 5],
                "declined": "The driver will not wait.",
            },
        ),
        (HOLD, ALLOWANCE),
        "hold the rest until it is sorted",
    ),
    row(
        "one bad, no time to open more",
        delivery(
            *one_of(MANY),
            sampling={
                "plan": "house",
                "n": 3,
                "acceptance": 0,
                "seed": "x",
                "positions": [3, 4, 5],
                "declined": "No hands.",
            },
        ),
        HOLD,
        "neither taken nor sent back unseen",
    ),
    row(
        "air -10 in the vehicle, product -19.5",
        {**delivery(), "vehicle": {"air": {"entered": "-10", "unit": "C"}, "load": "sound"}},
        (ACCEPT, ALLOWANCE),
        "air is a prompt",
    ),
    row("nothing came", lot(20, [], cartons_counted=0), (ALLOWANCE, REJECT), "sign for nothing"),
    row(
        "soft on 4 of 40 in all",
        delivery(*all_of(pieces(soft=4))),
        (REJECT, ALLOWANCE, HOLD),
        "going off or badly frozen",
    ),
    row("broken on 6 of 40 in all", delivery(*all_of(pieces(broken=6))), (ALLOWANCE, REJECT), "price of broken"),
    row(
        "black spot, broken and soft, each in one of three",
        delivery(carton(3, **MANY), carton(11, **pieces(broken=16)), carton(17, **pieces(soft=12))),
        (REJECT, HOLD),
        "every carton opened is bad",
    ),
    row(
        "short by one, count small in all, one torn liner",
        delivery(
            carton(3, liner="torn", **counted(88, "1760")),
            carton(11, **counted(88, "1760")),
            carton(17, **counted(88, "1760")),
            cartons_counted=19,
        ),
        (ALLOWANCE, REJECT),
        "money",
    ),
]
