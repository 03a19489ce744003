"""Which advice evidence shows: the one that was there at signing, the newest, and nothing where it is switched off."""
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest
from django.test import Client

from inspections.evidence.links import make_link
from inspections.evidence.page import page_of
from inspections.records import jobs, storage
from inspections.records.advising import SWITCHED_OFF, WAS_OFF
from inspections.records.models import Advisory, Delivery, Job, Photo
from inspections.records.services.advisory import record_advisory
from inspections.records.services.reference import switch_advice
from inspections.records.shape.door import read_delivery
from inspections.sync.signing import sign
from tests.inspections.receiving import advice_context, decide, document, keep, photo_entry, picture

NONE_SEEN = {
    "answer": "none_seen", "share": 0.01, "share_low": 0.0, "share_high": 0.03, "where": [],
    "reasons": [{"code": "share", "text": "About 1 % looked dark."}], "card_used": False, "method_version": "colour-1",
    "baseline_version": "documented-1",
}
SEEN = {
    **NONE_SEEN, "answer": "darkening_seen", "share": 0.08, "share_low": 0.05, "share_high": 0.11, "where": ["spots"],
    "method_version": "colour-2",
}
PNG = b"\x89PNG\r\n\x1a\nhow light"


@pytest.fixture
def delivery(kitchen) -> Delivery:
    """A signed delivery with one photo of the prawns."""
    content = picture()
    keep(content)
    draft = document(kitchen)
    line = draft["lines"][0]
    draft["photos"] = [photo_entry(content, line_id=line["id"], carton_id=line["cartons"][0]["id"], purpose="top")]
    final = decide(draft)
    sign(sent=read_delivery(final), person=kitchen.receiver)
    return Delivery.objects.get()


def answer(delivery: Delivery, advice: dict, *, minutes: float, name: str = "") -> Advisory:
    """An advice that came so many minutes after signing, with pictures of that name."""
    for kind in ("overlay", "histogram") if name else ():
        storage.put(f"derived/x/{kind}-{name}", PNG + name.encode())
    given = record_advisory(
        photo=Photo.objects.get(), context=advice_context(delivery.document, delivery.document["photos"][0]),
        advice=advice, overlay_name=f"derived/x/overlay-{name}" if name else "",
        histogram_name=f"derived/x/histogram-{name}" if name else "",
    )
    Advisory.objects.filter(pk=given.pk).update(created_at=delivery.signed_at + timedelta(minutes=minutes))
    return given


def shot(delivery: Delivery):
    return page_of(delivery)["lines"][0].photos[0]


def test_the_answer_that_was_there_at_signing_is_said_to_have_been(delivery):
    answer(delivery, NONE_SEEN, minutes=-2)
    [given] = shot(delivery).answers
    assert given.words == "No darkening seen."
    assert given.when == "This answer was there when the delivery was signed."
    assert given.made_by == (
        "method colour-1, compared with the documented look of sound goods of the same kind, documented-1"
    )


@pytest.mark.parametrize(("origin", "where"), [("site", "at this site"), ("group", "in this group")])
def test_it_is_said_what_the_photo_was_compared_with(delivery, origin, where):
    grounds = {"from": origin, "site_photos": 3 if origin == "site" else 0, "group_photos": 9}
    answer(delivery, {**NONE_SEEN, "baseline": grounds, "baseline_version": "documented-1+x"}, minutes=-2)
    photos = 12 if origin == "site" else 9
    assert shot(delivery).answers[0].made_by == (
        f"method colour-1, compared with sound goods of the same kind {where} ({photos} photos of accepted cartons), "
        "documented-1+x"
    )


def test_what_the_method_was_measured_to_be_worth_is_said_once_for_all_photos(delivery):
    """The pages end in one full stop, and four photos do not say the same four times."""
    shipped = {**NONE_SEEN, "learnt": {"from": "shipped", "sound": 0, "spotted": 0}, "cut_off": 0.64}
    answer(delivery, shipped, minutes=-2)
    told = page_of(delivery)
    given = told["lines"][0].photos[0].answers[0]
    assert given.made_by == "method colour-1, cut-off 0.64, as shipped"
    assert told["tried"] == [given.tried]
    assert given.tried.startswith("The method was tried on real photographs: on ")
    assert not given.tried.endswith("..")


def test_one_that_came_later_is_said_to_have_come_later(delivery):
    answer(delivery, NONE_SEEN, minutes=3)
    assert [given.when for given in shot(delivery).answers] == ["This answer came after the delivery was signed."]


def test_a_newer_method_s_answer_stands_beside_the_one_at_signing(delivery):
    answer(delivery, {**NONE_SEEN, "answer": "cannot_tell"}, minutes=-5)
    answer(delivery, NONE_SEEN, minutes=-2)
    answer(delivery, {**SEEN, "method_version": "colour-1b"}, minutes=60)
    answer(delivery, SEEN, minutes=9000)
    newest, there = shot(delivery).answers
    assert [given.made_by.partition(",")[0] for given in (newest, there)] == ["method colour-2", "method colour-1"]
    assert [(given.method, given.words) for given, _ in shot(delivery).earlier] == [
        ("colour-1b", "Darkening seen on about 8.0 % of the prawns’ surface (5.0 % to 11.0 %)."),
        ("colour-1", "Cannot tell from this photo."),
    ]  # fmt: skip
    assert newest.words == "Darkening seen on about 8.0 % of the prawns’ surface (5.0 % to 11.0 %)."
    assert newest.when == "This answer came after the delivery was signed, from looking again."
    assert there.words == "No darkening seen."


def test_each_answer_has_its_own_pictures(kitchen, delivery):
    old, new = (answer(delivery, NONE_SEEN, minutes=-2, name="old"), answer(delivery, SEEN, minutes=60, name="new"))
    link = "/e/" + make_link(delivery=delivery, person=kitchen.manager)[1]
    page = Client().get(link).content.decode()
    at = f"{link}/photos/{Photo.objects.get().pk}"
    for kind in ("overlay", "histogram"):
        for given, name in ((old, b"old"), (new, b"new")):
            assert f"{kind}?of={given.pk}" in page
            picture = Client().get(f"{at}/{kind}?of={given.pk}")
            assert (picture.content, picture["Content-Type"]) == (PNG + name, "image/png")
        assert Client().get(f"{at}/{kind}").content == PNG + b"new"
        assert Client().get(f"{at}/{kind}?of=018f0000-0000-7000-8000-00000000ffff").status_code == 404


def test_the_other_answers_are_told_folded_away_with_their_time_by_the_site_s_clock(kitchen, delivery):
    answer(delivery, NONE_SEEN, minutes=-2)
    middle = answer(delivery, {**SEEN, "method_version": "colour-1b"}, minutes=60, name="middle")
    answer(delivery, SEEN, minutes=90)
    page = Client().get("/e/" + make_link(delivery=delivery, person=kitchen.manager)[1]).content.decode()
    assert "<summary>1 other answer by machine, kept</summary>" in page
    middle.refresh_from_db()
    at = middle.created_at.astimezone(ZoneInfo(kitchen.site.timezone))
    assert f"{at.day} {at:%B %Y, %H:%M}, method colour-1b: Darkening seen on about 8.0 %" in page
    assert f"overlay?of={middle.pk}\">Marked photo</a>" in page


def test_a_picture_of_another_delivery_s_advice_is_not_given(kitchen, delivery):
    other = record_advisory(photo=Photo.objects.get(), context={"purpose": "defect"}, advice=SEEN,
                            overlay_name="derived/x/overlay-other")
    link = "/e/" + make_link(delivery=delivery, person=kitchen.manager)[1]
    assert Client().get(f"{link}/photos/{other.photo_id}/overlay?of={other.pk}").status_code == 404
    assert Client().get(f"{link}/photos/{other.photo_id}/histogram").status_code == 404


def test_without_any_answer_nothing_is_said(delivery):
    assert (shot(delivery).answers, shot(delivery).no_advice) == ([], "")


def test_switched_off_is_said_on_photos_of_the_prawns(kitchen):
    switch_advice(specification=kitchen.whiteleg.specification, is_on=False, person=kitchen.manager)
    content = picture()
    keep(content)
    draft = document(kitchen)
    line = draft["lines"][0]
    draft["photos"] = [
        photo_entry(content, line_id=line["id"], purpose=purpose) for purpose in ("sample", "label")
    ]
    sign(sent=read_delivery(decide(draft)), person=kitchen.receiver)
    sample, label = page_of(Delivery.objects.get())["lines"][0].photos
    assert (sample.answers, sample.no_advice) == ([], SWITCHED_OFF)
    assert label.no_advice == ""


def test_a_photo_whose_turn_came_after_switching_off_says_so(kitchen, delivery):
    switch_advice(specification=kitchen.whiteleg.specification, is_on=False, person=kitchen.manager)
    for job in Job.objects.all():
        jobs.finish(jobs.take(job.pk), None)
    switch_advice(specification=kitchen.whiteleg.specification, is_on=True, person=kitchen.manager)
    assert (shot(delivery).answers, shot(delivery).no_advice) == ([], WAS_OFF)
    answer(delivery, SEEN, minutes=60)  # looked at again since
    assert [given.words[:15] for given in shot(delivery).answers] == ["Darkening seen "]
