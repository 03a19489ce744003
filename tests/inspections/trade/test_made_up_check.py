"""A check that nobody has written code for: a row, its limits and its words, and every part of the house shows it."""

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
MADE_UP = ROOT / "fixtures" / "made_up_checks.json"
TABLES = {"checks": "checks.json", "limits": "limits.json"}
#: Runs where the copy is, so that nothing of it was imported before the rows were added.
SEEN = """
import json, sys
from uuid import uuid4
import msgspec
from fixtures.api_types import of_documents
from inspections.evidence.carton_page import carton_page
from inspections.evidence.worksheet import worksheet_of
from inspections.records.shape.delivery import InspectionDocument
from inspections.trade.generated import cases
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.reasons import explain
from inspections.trade.verdict import judge_document
from inspections.trade.severity_ranking import FINDINGS, ORDER
from tests.inspections.trade.deliveries import SPECIFICATION, carton, delivery

def seen(patch, specification=SPECIFICATION, limits=DEFAULT_LIMITS):
    sound = {"slumped": "none", "pieces": {"black_spot": 0, "dehydrated": 0, "broken": 0, "soft": 0, "cracked": 0}}
    document = delivery(carton(3, **patch), carton(11, **sound), carton(17, **sound))
    judgement = judge_document(document, [specification], limits)
    record = {"document": document, "specifications": [specification], "limits": limits, "judgement": judgement}
    line, sheet = judgement["lines"][0], worksheet_of(record)["lines"][0]["cartons"][0]
    page = carton_page(document["lines"][0]["cartons"][0], line["cartons"][0], specification,
                       asked=line["not_checked"])
    return {
        "suggestion": line["suggestion"], "reasons": [reason["text"] for reason in line["reasons"]],
        "why": [explain(reason)["numbers"] for reason in line["reasons"]],
        "needed": line["needed"], "checks": line["cartons"][0]["checks"], "unusable": judgement["unusable"],
        "sheet": {row["name"]: [row["number"], row["limit"], row["answer"]] for row in sheet["checks"]},
        "entries": {entry["name"]: entry["entered"] for entry in sheet["entries"]},
        "page": {"found": {one.name: one.found for one in page.checks}, "within": page.within,
                 "not_checked": page.not_checked},
    }

def kept(**more):
    # whether the door takes a delivery with the made-up answers, as a phone would send it
    found = {"id": str(uuid4()), "slumped": "most", "pieces": {"black_spot": 0, "cracked": 1}, **more}
    line = {"id": str(uuid4()), "specification_id": "s", "cartons": [found]}
    body = {"schema": 1, "id": str(uuid4()), "site_id": str(uuid4()), "supplier_id": "", "limits_id": "l",
            "docket_number": "", "arrived_at": "2026-11-25T06:10:00+11:00", "receiver": {"person_id": 1, "name": "R"},
            "device_id": str(uuid4()), "lines": [line], "photos": []}
    try:
        msgspec.convert(body, InspectionDocument)
    except msgspec.ValidationError as problem:
        return str(problem)
    return "kept"

older = {**DEFAULT_LIMITS, "limits": [one for one in DEFAULT_LIMITS["limits"] if one["code"] != "slumped.most"]}
peeled = {**SPECIFICATION, "presentation": "PD"}
print(json.dumps({
    "cases": [seen(case["patch"]) for case in json.load(sys.stdin)],
    "odd": seen({"slumped": "molten"})["unusable"],
    "older": seen({"slumped": "most"}, limits=older)["suggestion"],
    "peeled": seen({"pieces": {"black_spot": 0}}, specification=peeled)["checks"],
    "order": list(ORDER), "acts_on": [FINDINGS[code]["acts_on"] for code in ("SLUMPED-MOST", "CRACKED")],
    "types": of_documents(), "kept": kept(), "stranger": kept(slumpt="most"),
    "made_up": sorted({carton.get("slumped") or "" for case in cases(60, 1) if isinstance(case["document"], dict)
                       for line in case["document"].get("lines") or [] if isinstance(line, dict)
                       for carton in line.get("cartons") or [] if isinstance(carton, dict)}, key=str),
}))
"""


def add_rows(data: Path) -> set[str]:
    """Write the made-up rows into a copy of the tables; the files that were touched."""
    made_up = json.loads(MADE_UP.read_text(encoding="utf-8"))
    for key, name in TABLES.items():
        table = json.loads((data / name).read_text(encoding="utf-8"))
        table[key] += made_up[key]
        (data / name).write_text(json.dumps(table), encoding="utf-8")
    words = json.loads((data / "wording_en.json").read_text(encoding="utf-8"))
    for group, own in made_up["words"].items():
        words[group] |= own
    (data / "wording_en.json").write_text(json.dumps(words), encoding="utf-8")
    return {*TABLES.values(), "wording_en.json"}


@pytest.fixture(scope="module")
def made_up() -> dict:
    return json.loads(MADE_UP.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def house(tmp_path_factory, made_up) -> dict:
    """What a copy of the house shows once the rows are in its tables."""
    copy = tmp_path_factory.mktemp("house")
    for folder in ("inspections", "fixtures", "tests"):
        shutil.copytree(ROOT / folder, copy / folder, ignore=shutil.ignore_patterns("__pycache__"))
    touched = add_rows(copy / "inspections" / "trade" / "data")
    told = subprocess.run(
        [sys.executable, "-c", SEEN], cwd=copy, input=json.dumps(made_up["cases"]), capture_output=True, text=True,
        check=False, env={"PYTHONPATH": str(copy), "PATH": ""},
    )
    assert told.returncode == 0, told.stderr
    return {**json.loads(told.stdout), "touched": touched}


def test_a_plain_check_is_two_tables_and_the_catalogue(house):
    """With its vector case that is three files and the catalogue; the phone's types are written by a command."""
    assert house["touched"] == {"checks.json", "limits.json", "wording_en.json"}


def test_it_is_read_and_judged(house, made_up):
    for case, found in zip(made_up["cases"], house["cases"], strict=True):
        assert found["unusable"] == []
        assert (found["suggestion"], found["reasons"]) == (case["suggestion"], case["reasons"]), case["id"]
        assert {name: found["checks"][name] for name in case["checks"]} == case["checks"], case["id"]
    counted = "9 / 40 = 22.5 %. 95 % interval 12.3 % to 37.5 % (Wilson)."
    assert house["cases"][1]["why"] == [counted, "Seen by the receiver, not measured."]
    assert house["cases"][-1]["needed"] == ["slumped"]
    assert [(entry["path"], entry["code"]) for entry in house["odd"]] == [("lines[0].cartons[0].slumped", "FACT-02")]


def test_it_has_its_place_in_the_order_of_weight(house):
    order = house["order"]
    for before, code, behind in (("LINER-TORN", "SLUMPED-MOST", "DEFECTIVE-OVER"), ("BROKEN-NOTE", "CRACKED", "HEADS")):
        place = order.index(code)
        assert [order[place - 1], order[place + 1]] == [before, behind]
    assert house["acts_on"] == ["carton", "pieces"]


def test_a_set_of_limits_from_before_is_judged_with_the_shipped_limit(house):
    # One bad carton of three: more are opened first.
    assert house["older"] == "not_yet"


def test_goods_that_are_not_asked_about_it_do_not_wait_for_it(house):
    assert "cracked" not in house["peeled"]
    assert house["peeled"]["slumped"] == "not_checked"


def test_the_worksheet_and_the_evidence_page_show_it(house):
    sound, some, most, _ = house["cases"]
    assert sound["sheet"]["slumped blocks"] == ["none", "none", "within"]
    assert some["sheet"]["cracked"] == ["22.5", "20", "past the limit"]
    assert most["sheet"]["slumped blocks"] == ["most blocks slumped", "none", "past the limit"]
    assert most["entries"]["slumped blocks"] == "most blocks slumped"
    assert "slumped blocks (none)" in sound["page"]["within"]
    assert some["page"]["found"] == {"slumped blocks": "some", "cracked": "9 of 40 prawns"}
    assert "cracked" in most["page"]["not_checked"]


def test_the_phones_types_and_the_made_up_deliveries_have_it(house):
    assert 'export type Slumped = "none" | "some" | "most";' in house["types"]
    assert "slumped?: Slumped | null;" in house["types"]
    assert {"none", "some", "most"} <= set(house["made_up"])


def test_the_door_takes_it_and_no_other_key(house):
    assert house["kept"] == "kept"
    assert "slumpt" in house["stranger"]
