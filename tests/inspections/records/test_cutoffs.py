"""The cut-off taught by receivers' findings: who teaches, per goods, and when it goes quiet."""
import itertools

import pytest

from imaging import advice, cutoff
from inspections.people.models import Site
from inspections.records import jobs
from inspections.records.cutoffs import Goods, cut_off_for, cut_offs
from inspections.records.judging import judge
from inspections.records.models import Advisory
from inspections.records.services.advisory import record_advisory
from tests.factories import a_carton, a_document, a_jpeg, a_line, photo_entry, sign_delivery
from tests.inspections.records.test_jobs import ADVICE
from tests.inspections.records.test_photos import store

GOODS = Goods("PNV", "HLSO", "raw")
CONTEXT = {"species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "sample"}
_widths = itertools.count(40)


def photographed(
    cast, *figures: float, site: Site | None = None, kind: str = "accept", method: str = advice.METHOD_VERSION,
    purpose: str = "sample", **carton,
) -> list[Advisory]:
    """One signed delivery: a carton for each figure, with one photo that it was read from."""
    site = site or cast.quay
    cartons = [a_carton(position, **carton) for position in range(1, len(figures) + 1)]
    line = a_line(cast.version, *cartons, counted=max(3, len(cartons)))
    photos = [a_jpeg(width=next(_widths)) for _ in figures]
    entries = [photo_entry(photo, purpose=purpose, line_id=line["id"], carton_id=one["id"])
               for photo, one in zip(photos, cartons, strict=True)]
    for photo in photos:
        store(photo)
    final = a_document(site, cast.supplier, cast.limits, cast.receiver, line, photos=entries)
    _decide(final, kind)
    sign_delivery(document=final, person=cast.administrator)
    told = {**ADVICE, "method_version": method, "is_clear": True}
    return [
        record_advisory(photo=store(photo), context={**CONTEXT, "purpose": purpose}, advice={**told, "figure": figure})
        for photo, figure in zip(photos, figures, strict=True)
    ]


def _decide(document: dict, kind: str) -> None:
    line, judgement = document["lines"][0], judge(document)
    counted, at = line["cartons_counted"], "2026-11-25T06:29:00+00:00"
    split = {"accepted": counted, "refused": 0} if kind == "accept" else {"accepted": 0, "refused": counted}
    line["suggested"] = judgement["lines"][0]
    line["decision"] = {"kind": kind, **split, "held": 0, "reason": "Asked by the chef.", "decided_at": at}
    document["wording"] = {"text": judgement["wording"], "copied_at": at}


@pytest.fixture
def few(monkeypatch):
    """As if three of each kind were enough."""
    monkeypatch.setattr(cutoff, "LEAST", 3)


SOUND, SPOTTED = {"black_spot": 0}, {"black_spot": 3}


def test_with_too_few_findings_the_shipped_cut_off_holds(cast):
    photographed(cast, 0.3, 0.4, pieces=SOUND)
    one = cut_offs(False)[GOODS]
    assert (one.sound, one.spotted, one.learnt, one.context()) == (2, 0, None, {})
    assert one.to_json()["cut_off"] == advice.CUT_OFF


def test_findings_move_the_cut_off_and_the_job_goes_by_it(cast, few):
    photographed(cast, *[0.40, 0.42, 0.44, 0.46, 0.48, 0.50] * 3, pieces=SOUND)
    given = photographed(cast, *[0.7, 0.8, 0.9] * 3, site=cast.bend, pieces=SPOTTED)
    one = cut_off_for(given[0].photo_id, CONTEXT)
    assert one.to_json()["from"] == "findings"
    assert 0.48 < one.context()["cut_off"] <= 0.5
    assert one.context()["may_answer"]
    assert cut_off_for(given[0].photo_id, {**CONTEXT, "species_code": "GIT"}).learnt is None


def test_it_goes_quiet_where_the_figure_does_not_tell(cast, few):
    photographed(cast, 0.40, 0.50, 0.60, 0.70, pieces=SOUND)
    given = photographed(cast, 0.41, 0.51, 0.59, 0.69, pieces=SPOTTED)
    assert cut_off_for(given[0].photo_id, CONTEXT).context() == {"cut_off": advice.CUT_OFF, "may_answer": False}


@pytest.mark.parametrize("apart", [{"purpose": "top"}, {"method": "pieces-0"}, {"pieces": {"broken": 0}}])
def test_only_laid_out_samples_of_this_method_that_were_looked_at_teach(cast, apart):
    photographed(cast, 0.4, **{"pieces": SOUND, **apart})
    assert cut_offs(False) == {}


def test_demo_sites_never_teach_real_ones(cast):
    photographed(cast, 0.4, pieces=SOUND)
    assert cut_offs(True) == {}


def test_what_was_learnt_is_kept_with_the_advice(cast, monkeypatch):
    monkeypatch.setattr(jobs, "hint", lambda job_id: True)
    from imaging import tasks

    photo = store(a_jpeg(width=901))
    job = jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": photo.sha256, "context": CONTEXT})
    tasks.run(str(job.pk))
    assert Advisory.objects.get().body["learnt"]["from"] == "shipped"
