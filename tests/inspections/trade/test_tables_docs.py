"""The tables printed on the pages are those that the judgements use: whoever recomputes from paper gets the same."""

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest

from inspections.trade.basis import load_table
from inspections.trade.labels import TABLE
from inspections.trade.sampling import plan_for
from inspections.trade.shortage import maximum_allowable_variation, tolerable_deficiency
from inspections.trade.wording import word

from .printed import DOCS, rows_of

DATA = DOCS.parent / "data"

MARKETS = {"European Union": "EU", "United States": "US", "Australia and New Zealand": "ANZ", "Codex": "CODEX"}


KNOWN = {"read": "read", "from_memory": "from memory", "common_practice": "common practice", "computed": "computed"}


def bases_in(data: Any) -> Iterator[tuple[str, str]]:
    """Source and how surely it is known, of every basis anywhere in a table."""
    if isinstance(data, dict) and isinstance(data.get("source"), str) and data.get("known") in KNOWN:
        yield data["source"], KNOWN[data["known"]]
    elif isinstance(data, (dict, list)):
        for part in data.values() if isinstance(data, dict) else data:
            yield from bases_in(part)


@pytest.mark.parametrize("page", ["counts", "glaze", "sampling", "temperature", "species", "labels"])
def test_a_page_names_its_sources_as_the_judgements_do(page):
    used = {basis for file in DATA.glob("*.json") for basis in bases_in(json.loads(file.read_text("utf-8")))}
    rows = rows_of(page, "| what | source | how known |")
    assert len(rows) >= 4
    for what, source, known in rows:
        assert what
        assert (source, known) in used, what


def numbers(text: str) -> list[float]:
    return [float(number.replace(",", "")) for number in re.findall(r"[0-9][0-9,]*(?:\.[0-9]+)?", text)]


def test_tolerable_deficiency():
    rows = rows_of("glaze", "| declared, g | T |")
    for declared, printed in rows:
        *_, last = numbers(declared)
        weight = last + 1 if declared.startswith("over") else last
        (told,) = numbers(printed)
        hoped = weight * told / 100 if "%" in printed else told
        assert tolerable_deficiency(weight).tolerable_g == pytest.approx(hoped, abs=0.1), declared
    assert len(rows) == len(load_table("tolerances")["tolerable"])


def test_maximum_allowable_variation():
    rows = rows_of("glaze", "| over, g | to, g |")
    assert len(rows) == len(load_table("tolerances")["mav"])
    for over, to, short in rows:
        weight = numbers(to)[0] if numbers(to) else 2 * numbers(over)[0]
        hoped = weight * 0.02 if "%" in short else numbers(short)[0]
        assert maximum_allowable_variation(weight) == pytest.approx(hoped)
        assert maximum_allowable_variation(numbers(over)[0]) != hoped


def test_students_t():
    from scipy.stats import t

    for units, us, eu in rows_of("glaze", "| units | t(0.975)"):
        assert float(us) == pytest.approx(t.ppf(0.975, int(units) - 1), abs=5e-5)
        assert float(eu) == pytest.approx(t.ppf(0.995, int(units) - 1), abs=5e-5)


def test_codex_plans():
    rows = rows_of("sampling", "| cartons, units to 1 kg |")
    for place, unit_g in enumerate((1000, 4500, 4501)):
        before = 0
        for row in rows:
            lot = int(numbers(row[place])[0]) if numbers(row[place]) else before + 1
            for level, cell in (("codex_1", row[3]), ("codex_2", row[4])):
                for size in (before + 1, lot):
                    opened, accepted = numbers(cell)
                    plan = plan_for(level, size, unit_g)
                    assert (plan.n, plan.acceptance) == (min(opened, size), accepted), (row, size)
            before = lot


def test_iso_plans():
    for lots, *cells in rows_of("sampling", "| cartons | S-2 |"):
        for lot in (int(number) for number in numbers(lots)):
            for name, cell in zip(("iso_s2", "iso_s3", "iso_s4", "iso_1", "iso_2"), cells, strict=True):
                plan = plan_for(name, lot)
                opened, accepted = numbers(cell.partition(":")[2])
                assert (plan.letter, plan.n, plan.acceptance) == (cell[0], min(opened, lot), accepted), (name, lot)


def test_particulars_of_each_market():
    rows = rows_of("labels", "| market | asked for |")
    assert len(rows) == len(TABLE["markets"])
    for market, asked, _ in rows:
        profile = TABLE["markets"][MARKETS[market]]
        wanted = [*profile["required"], *profile["when_caught"]]
        named = [part.strip() for part in re.sub(r"\([^)]*\)", "", asked).split(",")]
        assert len(named) == len(wanted), market
        for code in wanted:
            first = word("particulars", code).split(" ")[0].rstrip(",")
            assert any(first in part or code.partition("_")[0] in part for part in named), (market, code)
