"""Deliveries as a phone would write and sign them, from nothing but the reference bundle; and photos for them."""
import copy
import hashlib
import io
import random
from datetime import UTC, datetime, timedelta

from PIL import Image
from uuid6 import uuid7

from inspections.trade.facts import facts_from_document
from inspections.trade.verdict import judge_facts

STROKES = [[[0.1, 0.6, 0], [0.3, 0.2, 40], [0.5, 0.7, 80]], [[0.6, 0.5, 120], [0.9, 0.4, 160]]]


def an_id() -> str:
    """A UUIDv7, as devices make them."""
    return str(uuid7())


def a_moment(minutes_ago: float = 0) -> str:
    """Now, or some minutes ago, as a phone writes it."""
    return (datetime.now(UTC) - timedelta(minutes=minutes_ago)).isoformat(timespec="seconds")


def a_photo(chance: random.Random, kilobytes: int = 40) -> bytes:
    """A JPEG of noise on a pale ground, about so large; no two are the same."""
    side = 16 * max(2, round((kilobytes * 1024 / 159) ** 0.5))
    coarse = Image.frombytes("RGB", (side // 2, side // 2), chance.randbytes(side // 2 * (side // 2) * 3))
    out = io.BytesIO()
    coarse.resize((side, side)).save(out, "JPEG", quality=85)
    return out.getvalue()


def with_comment(jpeg: bytes, text: str) -> bytes:
    """The same picture as another file: a comment behind its first marker (ITU-T T.81, B.2.4.5)."""
    note = text.encode("ascii")
    return b"".join((jpeg[:2], b"\xff\xfe", (len(note) + 2).to_bytes(2, "big"), note, jpeg[2:]))


def photo_entry(content: bytes, line_id: str) -> dict:
    """A photo as a document names it."""
    return {
        "id": an_id(), "sha256": hashlib.sha256(content).hexdigest(), "bytes": len(content), "type": "image/jpeg",
        "purpose": "top", "line_id": line_id, "carton_id": None, "taken_at": a_moment(3),
        "gate": {"sharpness": 0.8, "exposure": 0.5, "glare": 0.0, "verdict": "usable"},
    }


def a_delivery(reference: dict, *, device_id: str, docket: str) -> dict:
    """A delivery of one line with two cartons opened, nothing decided."""
    me, specification = reference["me"], reference["specifications"][0]
    return {
        "schema": 1, "id": an_id(), "site_id": me["sites"][0]["id"], "supplier_id": reference["suppliers"][0]["id"],
        "order_id": None, "limits_id": reference["current_limits_id"], "docket_number": docket,
        "arrived_at": a_moment(8), "receiver": {"person_id": me["id"], "name": me["name"]}, "device_id": device_id,
        "separate_from": None,
        "vehicle": {"air": {"entered": "-19", "unit": "C"}, "load": "sound", "seal_number": "", "note": ""},
        "lines": [{
            "id": an_id(), "order_line_id": None, "specification_id": specification["id"], "cartons_on_docket": 20,
            "cartons_counted": 20, "lot": "L2608",
            "sampling": {"plan": "house", "layers": 1, "seed": docket, "n": 2, "acceptance": 0, "positions": [3, 11]},
            "cartons": [_carton(position) for position in (3, 11)], "suggested": None, "decision": None,
        }],
        "photos": [], "wording": None, "signatures": None, "notes": "",
    }


def _carton(position: int) -> dict:
    return {
        "id": an_id(), "position": position, "opened_at": a_moment(6),
        "label": {
            "source": "typed", "scan": "", "species_code": "PNV", "scientific_name": "Penaeus vannamei",
            "presentation": "HLSO", "state": "raw", "grade": "16/20", "net": {"entered": "2", "unit": "kg"},
            "lot": "L2608", "production_date": "2026-06-02", "frozen_on": "2026-06-02", "best_before": "2028-06-01",
            "origin": "EC", "catch_area": "", "method": "farmed",
            "shows": ["name", "scientific_name", "method", "area", "state", "net_weight", "lot", "date", "storage",
                      "crustacean", "sulphites", "producer", "approval", "origin"],
        },
        "liner": "closed", "frost": "none", "refreezing": [],
        "temperature": {"product": {"entered": "-19,4", "unit": "C"}, "method": "between_packs",
                        "thermometer_id": None},
        "looked_at": 20, "pieces": {"black_spot": 0, "dehydrated": 0, "broken": 0, "soft": 0},
        "black_spot_score": None, "odour": "sound", "foreign_matter": "none", "foreign_note": "",
        "weights": {"gross": None, "tare": None, "glazed": None, "deglazed": {"entered": "2010", "unit": "g"}},
        "sample": {"pieces": 36, "weight": {"entered": "907", "unit": "g"}, "weight_is": "deglazed",
                   "largest": None, "smallest": None},
        "marks": {"answer": "agree", "seen": {}}, "note": "",
    }


def signed_off(draft: dict, reference: dict) -> dict:
    """The delivery as it is signed: decided as the judgement suggests, both signatures on it."""
    final = copy.deepcopy(draft)
    for line, verdict in zip(final["lines"], _judged(final, reference)["lines"], strict=True):
        is_open = verdict["suggestion"] == "not_yet"
        split = verdict["suggested_split"] or {"accepted": 0, "refused": 0, "held": line["cartons_counted"]}
        line["decision"] = {"kind": "hold" if is_open else verdict["suggestion"], **split,
                            "reason": "Driver could not wait." if is_open else "", "decided_at": a_moment(2)}
    judged = _judged(final, reference)
    for line, verdict in zip(final["lines"], judged["lines"], strict=True):
        line["suggested"] = verdict
    final["wording"] = {"text": judged["wording"], "copied_at": a_moment(2)}
    final["signatures"] = {
        "receiver": {"name": final["receiver"]["name"], "strokes": STROKES, "at": a_moment(1)},
        "driver": {"name": "D. Roe", "strokes": STROKES, "at": a_moment(1)},
    }
    return final


def _judged(document: dict, reference: dict) -> dict:
    limits = next(one for one in reference["limit_sets"] if one["id"] == document["limits_id"])
    return judge_facts(facts_from_document(document), reference["specifications"], limits)


def a_put_away(final: dict, reference: dict) -> dict:
    """Everything kept goes into the freezer."""
    freezer = next(one for one in reference["freezers"] if one["site_id"] == final["site_id"])
    return {
        "id": an_id(), "delivery_id": final["id"], "kind": "put_away", "at": a_moment(),
        "person": final["receiver"], "device_id": final["device_id"],
        "body": {"freezer_air": {"entered": "-21", "unit": "C"}, "cartons": [{
            "line_id": line["id"], "count": line["decision"]["accepted"] + line["decision"]["held"],
            "freezer_id": freezer["id"], "position": "shelf 2 left", "liner_closed": True, "out_at": a_moment(5),
            "in_at": a_moment(1)} for line in final["lines"]]},
    }
