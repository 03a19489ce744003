"""Baselines taught by accepted cartons: who teaches, how fast, and where it stops.

The pull n / (n + 12) is ``imaging.baseline``'s (shrinkage towards a common value: Efron and Morris 1975, with a
fixed weight). CIEDE2000 is held to the published pairs in tests/imaging/test_colour.py.
"""
import itertools

import pytest

from imaging import advice
from imaging.baseline import BORROWED, documented_baseline
from inspections.people.models import Site
from inspections.records import baselines, jobs
from inspections.records.acts.advisory import record_advisory
from inspections.records.baselines import MOST_DRIFT, Goods, accepted_looks, baseline_at
from inspections.records.judging import judge
from inspections.records.models import Advisory, Carton
from tests.factories import a_carton, a_document, a_jpeg, a_line, photo_entry, sign_delivery
from tests.inspections.records.test_jobs import ADVICE
from tests.inspections.records.test_photos import store
from tests.inspections.tamper import behind

GOODS = Goods("PNV", "HLSO", "raw")
CONTEXT = {"species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "under_liner"}
#: The documented look of raw whiteleg, shell on (imaging/baselines/documented.json).
DOCUMENTED = documented_baseline("PNV", "HLSO", "raw")
_widths = itertools.count(40)


def look(lightness: float, a: float = 1.0, b: float = 7.0, dark: float = DOCUMENTED.own_dark_share) -> dict:
    counts = [0] * 50
    counts[int(lightness // 2)] = 1000
    return {"lightness_counts": counts, "a": a, "b": b, "dark_share": dark}


def photographed(
    cast, *looks: dict, site: Site | None = None, kind: str = "accept", method: str = advice.METHOD_VERSION, **carton
) -> list[Advisory]:
    """One signed delivery: a carton for each look, with one photo that showed it."""
    site = site or cast.quay
    cartons = [a_carton(position, **carton) for position in range(1, len(looks) + 1)]
    line = a_line(cast.version, *cartons, counted=max(3, len(cartons)))
    photos = [a_jpeg(width=next(_widths)) for _ in looks]
    entries = [photo_entry(photo, line_id=line["id"], carton_id=one["id"])
               for photo, one in zip(photos, cartons, strict=True)]
    for photo in photos:
        store(photo)
    final = a_document(site, cast.supplier, cast.limits, cast.receiver, line, photos=entries)
    _decide(final, kind)
    sign_delivery(document=final, person=cast.administrator)
    return [
        record_advisory(photo=store(photo), context=CONTEXT, advice={**ADVICE, "method_version": method}, look=shown)
        for photo, shown in zip(photos, looks, strict=True)
    ]


def _decide(document: dict, kind: str) -> None:
    line, judgement = document["lines"][0], judge(document)
    counted, at = line["cartons_counted"], "2026-11-25T06:29:00+00:00"
    split = {"accepted": counted, "refused": 0} if kind == "accept" else {"accepted": 0, "refused": counted}
    line["suggested"] = judgement["lines"][0]
    line["decision"] = {"kind": kind, **split, "held": 0, "reason": "Asked by the chef.", "decided_at": at}
    document["wording"] = {"text": judgement["wording"], "copied_at": at}


def lightness(site: Site) -> float:
    return baseline_at(site, GOODS).used.lab[0]


def test_without_photos_the_documented_look_is_used(cast):
    found = baseline_at(cast.quay, GOODS)
    assert found.used == DOCUMENTED
    assert (found.origin, found.site_photos, found.group_photos, found.drift) == ("documented", 0, 0, 0.0)


def test_a_look_that_nobody_told_is_not_refined(cast):
    photographed(cast, look(50))
    assert baseline_at(cast.quay, Goods.of({})).origin == "documented"
    assert baseline_at(None, GOODS).origin == "documented"


def test_as_many_photos_as_are_borrowed_move_it_half_way(cast):
    photographed(cast, *[look(51)] * int(BORROWED))
    assert lightness(cast.quay) == pytest.approx((DOCUMENTED.lab[0] + 51) / 2)


def test_few_photos_stay_near_the_group_and_many_move(cast):
    photographed(cast, *[look(51)] * 24)
    photographed(cast, look(61), site=cast.bend)
    group = DOCUMENTED.lab[0] + 24 / 36 * (51 - DOCUMENTED.lab[0])
    assert lightness(cast.bend) == pytest.approx(group + 1 / 13 * (61 - group))
    photographed(cast, *[look(61)] * 47, site=cast.bend)
    assert lightness(cast.bend) == pytest.approx(group + 48 / 60 * (61 - group))
    found = baseline_at(cast.bend, GOODS)
    assert (found.origin, found.site_photos, found.group_photos) == ("site", 48, 24)
    assert baseline_at(Site.objects.create(name="New", code="NEW", timezone="UTC"), GOODS).origin == "group"


def test_a_few_bad_cartons_do_not_move_it(cast):
    photographed(cast, *[look(53)] * 20)
    before = baseline_at(cast.quay, GOODS).used
    photographed(cast, look(23, dark=0.3), look(23, dark=0.3), look(23, dark=0.3))
    after = baseline_at(cast.quay, GOODS).used
    # the median and the lower quartile are those of the sound ones; only the weight has grown a little
    assert abs(after.lab[0] - before.lab[0]) < 0.5
    assert after.own_dark_share == pytest.approx(before.own_dark_share)


def test_drift_is_told_and_grows_with_the_photos(cast):
    photographed(cast, *[look(51)] * 4)
    little = baseline_at(cast.quay, GOODS).drift
    photographed(cast, *[look(51)] * 40)
    assert 0 < little < baseline_at(cast.quay, GOODS).drift < MOST_DRIFT


def test_photos_that_lie_too_far_off_teach_nothing(cast):
    photographed(cast, *[look(27)] * 60)
    found = baseline_at(cast.quay, GOODS)
    assert found.is_too_far
    assert found.drift > MOST_DRIFT
    assert (found.used, found.origin) == (DOCUMENTED, "documented")


def test_a_surface_that_would_count_as_dark_by_itself_teaches_nothing(cast):
    # Were it learnt, a supplier of darkened prawns would teach the advice to overlook them.
    photographed(cast, *[look(56, dark=0.2)] * 60)
    found = baseline_at(cast.quay, GOODS)
    assert (found.is_too_far, found.used) == (True, DOCUMENTED)


@pytest.mark.parametrize(
    "carton",
    [
        {"pieces": {"black_spot": 1, "broken": 0}},  # the receiver found some
        {"pieces": {"broken": 0}},  # not looked for: not "none"
        {"looked_at": None},
        {"liner": "torn", "frost": "heavy"},  # found defective
    ],
    ids=["black spot", "not checked", "none looked at", "defective"],
)
def test_only_cartons_without_black_spot_teach(cast, carton):
    photographed(cast, look(51), look(51), **carton)
    if carton.get("frost"):
        behind(Carton).update(is_defective=True)
    assert baseline_at(cast.quay, GOODS).site_photos == 0


def test_a_rejected_line_teaches_nothing(cast):
    photographed(cast, look(51), look(51), kind="reject")
    assert baseline_at(cast.quay, GOODS).site_photos == 0


def test_only_the_current_method_and_only_photos_with_a_card_teach(cast):
    photographed(cast, look(51), look(51), method="colour-0")
    for advisory in photographed(cast, look(51)):
        Advisory.objects.filter(pk=advisory.pk).update(look=None)
    assert baseline_at(cast.quay, GOODS).site_photos == 0


def test_a_carton_teaches_once_by_its_newest_photo(cast):
    first = photographed(cast, look(51))[0]
    record_advisory(photo=first.photo, context=CONTEXT, advice={**ADVICE, "method_version": advice.METHOD_VERSION},
                    look=look(61))
    assert accepted_looks(Site.objects.all(), [GOODS])[GOODS][cast.quay.pk][0].lightness_counts[30] == 1000
    assert baseline_at(cast.quay, GOODS).site_photos == 1


def test_the_demo_teaches_no_real_site(cast):
    photographed(cast, *[look(51)] * 5, site=cast.bend)
    Site.objects.filter(pk=cast.bend.pk).update(is_demo=True)
    assert baseline_at(cast.quay, GOODS).group_photos == 0


def test_the_newest_photos_count(cast, monkeypatch):
    photographed(cast, *[look(51)] * 6)
    newest = Advisory.objects.order_by("created_at", "id").last()
    Advisory.objects.filter(pk=newest.pk).update(look=look(57))
    looks = accepted_looks(Site.objects.all(), [])[GOODS][cast.quay.pk]
    assert [one.lightness_counts.index(1000) for one in looks] == [28, *[25] * 5]
    monkeypatch.setattr(baselines, "MOST_PHOTOS_OF_A_SITE", 2)
    looks = accepted_looks(Site.objects.all(), [])[GOODS][cast.quay.pk]
    assert [one.lightness_counts.index(1000) for one in looks] == [28, 25]


def test_the_worker_is_handed_it_and_the_answer_keeps_where_it_came_from(cast, monkeypatch):
    from imaging import tasks

    photographed(cast, *[look(51)] * 12)
    job = jobs.Job.objects.order_by("created_at").first()
    given = {}
    monkeypatch.setattr(tasks, "analyse", lambda photo, context: given.update(context=context) or real(photo, context))
    tasks.run(str(job.pk))
    kept = Advisory.objects.order_by("created_at").last().body
    assert given["context"].baseline == baseline_at(cast.quay, GOODS).used
    assert kept["baseline_version"] == kept["baseline"]["version"] != DOCUMENTED.version
    assert (kept["baseline"]["from"], kept["baseline"]["site_photos"]) == ("site", 12)
    assert kept["baseline"]["drift"] > 0
    assert "look" not in kept


real = advice.analyse
