"""Photo advice switched on and off for a specification: who, when, and for which photos."""
from pathlib import Path

import pytest

from imaging import card
from inspections.errors import Unprocessable
from inspections.records import jobs, storage
from inspections.records.advising import SWITCHED_OFF, WAS_OFF, WENT_OFF, advice_contexts
from inspections.records.models import Advisory, Job, Specification, SpecificationVersion
from inspections.records.photo_answers import photos_in
from inspections.records.services.photo import use_photos
from inspections.records.services.reference import switch_advice
from tests.factories import a_document, a_jpeg, a_line, decided, photo_entry, sign_delivery
from tests.inspections.receiving import advice_context
from tests.inspections.records.test_jobs import ADVICE, pass_time
from tests.inspections.records.test_photos import store

SUBJECT = {"species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "under_liner"}


@pytest.fixture
def document(cast) -> dict:
    store(a_jpeg())
    line = a_line(cast.version)
    entry = photo_entry(a_jpeg(), line_id=line["id"], carton_id=line["cartons"][0]["id"])
    return a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, line, photos=[entry])


def switch(cast, is_on: bool) -> SpecificationVersion:
    return switch_advice(specification=cast.version.specification, is_on=is_on, person=cast.group)


def test_switching_off_is_a_version_with_who_and_when(cast):
    version = switch(cast, False)
    assert (version.version, version.data["advisory"], version.created_by) == (2, False, cast.group)
    assert version.created_at > cast.version.created_at
    assert {**version.data, "advisory": True} == cast.version.data
    cast.version.refresh_from_db()
    assert cast.version.data["advisory"] is True


def test_switching_to_what_it_is_writes_nothing(cast):
    assert switch(cast, True) == cast.version
    switch(cast, False)
    switch(cast, False)
    assert SpecificationVersion.objects.count() == 2


def test_a_specification_that_says_nothing_yet_cannot_be_switched(cast):
    blank = Specification.objects.create(code="NEW-1", name="Not agreed yet")
    with pytest.raises(Unprocessable, match="NEW-1 is still empty"):
        switch_advice(specification=blank, is_on=True, person=cast.group)


def test_no_advice_is_asked_for_although_the_open_document_names_the_older_version(cast, document):
    switch(cast, False)
    assert advice_context(document, document["photos"][0]) is None
    use_photos(document=document)
    assert [(job.kind, job.subject) for job in Job.objects.all()] == [
        ("small_pictures", {"sha256": document["photos"][0]["sha256"]})
    ]


def test_switched_on_again_the_photos_of_open_documents_are_asked_about(cast, document):
    switch(cast, False)
    use_photos(document=document)
    switch(cast, True)
    use_photos(document=document)
    assert [job.subject["context"] for job in Job.objects.filter(kind=jobs.ANALYSE_PHOTO)] == [SUBJECT]


def test_a_delivery_signed_before_keeps_its_advice(cast, document):
    final = decided(document)
    sign_delivery(document=final, person=cast.receiver)
    switch(cast, False)
    assert advice_context(final, final["photos"][0]) == SUBJECT
    assert photos_in(final)[0]["advice"] is None  # it still waits for the worker


def test_a_delivery_signed_while_off_says_so_although_it_is_on_again(cast, document):
    switch(cast, False)
    final = decided(document)
    sign_delivery(document=final, person=cast.receiver)
    switch(cast, True)
    advice = photos_in(final)[0]["advice"]
    assert (advice["answer"], advice["frames"], advice["overlay"]) == ("switched_off", [], None)
    assert advice["reasons"] == [{"code": "SWITCHED-OFF", "text": SWITCHED_OFF}]
    assert not Job.objects.filter(kind=jobs.ANALYSE_PHOTO).exists()


def test_the_other_lines_of_the_delivery_keep_theirs(cast, document):
    from tests.factories import a_specification

    other = a_line(a_specification("TIGER", species_code="GIT", advisory=False))
    document["lines"].append(other)
    document["photos"].append(photo_entry(a_jpeg(), line_id=other["id"]))
    document["photos"].append(photo_entry(a_jpeg(), purpose="load"))
    told = [context for _, context in advice_contexts(document)]
    assert told == [SUBJECT, None, {**dict.fromkeys(SUBJECT), "purpose": "load"}]


def test_queries_do_not_grow_with_photos(cast, document, django_assert_num_queries):
    document["photos"] *= 20
    with django_assert_num_queries(3):
        assert len(advice_contexts(document)) == 20


def test_small_pictures_are_made_without_any_advice(cast, document):
    from imaging import tasks

    switch(cast, False)
    use_photos(document=document)
    tasks.run(str(Job.objects.get().pk))
    assert Job.objects.get().state == "done"
    assert not Advisory.objects.exists()
    assert storage.read(storage.derived_name(document["photos"][0]["sha256"], "thumb")).startswith(b"\xff\xd8")


# ---- switched off while the work waits --------------------------------------------------------------------
@pytest.fixture
def waiting(cast, document) -> Job:
    """Work asked for while the advice was on; not yet taken by the worker."""
    use_photos(document=document)
    return Job.objects.get()


def test_what_waits_when_it_is_switched_off_is_not_looked_at_and_no_failure(cast, waiting, monkeypatch):
    from imaging import tasks

    switch(cast, False)
    monkeypatch.setattr(tasks, "analyse", lambda *given: pytest.fail("the photo was looked at"))
    tasks.run(str(waiting.pk))
    waiting.refresh_from_db()
    assert (waiting.state, waiting.sentence, waiting.lease_until) == ("unwanted", WAS_OFF, None)
    assert not Advisory.objects.exists()
    assert jobs.sweep() == 0
    assert storage.read(storage.derived_name(waiting.subject["sha256"], "thumb")).startswith(b"\xff\xd8")


def test_the_screens_say_that_it_was_off_also_when_it_is_on_again(cast, document, waiting):
    from imaging import tasks

    final = decided(document)
    sign_delivery(document=final, person=cast.receiver)
    switch(cast, False)
    tasks.run(str(waiting.pk))
    switch(cast, True)
    advice = photos_in(final)[0]["advice"]
    assert (advice["answer"], advice["reasons"]) == (
        "switched_off", [{"code": "WAS-SWITCHED-OFF", "text": WAS_OFF}]
    )  # fmt: skip


def test_switched_off_and_on_while_it_waits_it_is_looked_at(cast, waiting):
    switch(cast, False)
    switch(cast, True)
    assert jobs.take(waiting.pk).wants_advice


def test_switching_off_other_goods_stops_nothing(cast, waiting):
    from tests.factories import a_specification

    a_specification("TIGER", species_code="GIT", advisory=False)
    assert jobs.take(waiting.pk).wants_advice


@pytest.fixture
def looked_at(cast, waiting, monkeypatch):
    """The worker's own code, with something happening after it has looked and before it stores.

    The plain photo of these tests gives no pictures of advice, so two are put beside the small ones.
    """
    from imaging import tasks

    real = tasks.advice_and_pictures

    def run(meanwhile) -> Job:
        def looking(*given):
            result, files = real(*given)
            meanwhile()
            return result, {**files, "overlay": b"marked", "histogram": b"counted"}

        monkeypatch.setattr(tasks, "advice_and_pictures", looking)
        tasks.run(str(waiting.pk))
        waiting.refresh_from_db()
        return waiting

    return run


def pictures_of(job: Job) -> set[str]:
    return set(storage.photos().listdir(f"derived/{job.subject['sha256'][:2]}/{job.subject['sha256']}")[1])


def test_switched_off_while_the_worker_looks_the_answer_is_not_kept(cast, document, looked_at):
    job = looked_at(lambda: switch(cast, False))
    assert (job.state, job.sentence, job.lease_until) == ("unwanted", WENT_OFF, None)
    assert not Advisory.objects.exists()
    assert pictures_of(job) == {"thumb", "screen"}
    assert jobs.sweep() == 0
    switch(cast, True)
    advice = photos_in(document)[0]["advice"]
    assert (advice["answer"], advice["reasons"]) == ("switched_off", [{"code": "WAS-SWITCHED-OFF", "text": WENT_OFF}])
    use_photos(document=document)
    assert photos_in(document)[0]["advice"] is None  # asked anew, it is still to come


def test_switched_off_and_on_while_the_worker_looks_the_answer_is_kept(cast, looked_at):
    job = looked_at(lambda: (switch(cast, False), switch(cast, True)))
    assert (job.state, job.sentence, Advisory.objects.count()) == ("done", "", 1)
    assert pictures_of(job) == {"thumb", "screen", f"overlay-{job.pk}", f"histogram-{job.pk}"}


def test_other_goods_switched_off_while_the_worker_looks_take_no_answer_away(looked_at):
    from tests.factories import a_specification

    job = looked_at(lambda: a_specification("TIGER", species_code="GIT", advisory=False))
    assert (job.state, Advisory.objects.count()) == ("done", 1)


def test_an_answer_stored_before_the_switch_stays(cast, waiting):
    assert jobs.finish(jobs.take(waiting.pk), ADVICE)
    switch(cast, False)
    assert Advisory.objects.get().answer == ADVICE["answer"]


def test_switched_on_again_an_open_document_that_comes_again_opens_the_work_again(cast, document, waiting):
    switch(cast, False)
    jobs.finish(jobs.take(waiting.pk), None)
    switch(cast, True)
    use_photos(document=document)
    waiting.refresh_from_db()
    assert (waiting.state, waiting.attempts, waiting.sentence) == ("waiting", 0, "")
    assert photos_in(document)[0]["advice"] is None
    jobs.finish(jobs.take(waiting.pk), ADVICE)
    assert photos_in(document)[0]["advice"]["answer"] == ADVICE["answer"]


def test_a_late_worker_cannot_close_as_unwanted_what_another_holds(cast, waiting):
    switch(cast, False)
    late = jobs.take(waiting.pk)
    pass_time(jobs.LEASE_S + 1)
    switch(cast, True)
    held = jobs.take(waiting.pk)
    assert not jobs.finish(late, None)
    assert jobs.finish(held, ADVICE)


# ---- work of earlier releases, whose rows name no version -------------------------------------------------
@pytest.fixture
def older(waiting) -> Job:
    Job.objects.filter(pk=waiting.pk).update(
        subject={name: value for name, value in waiting.subject.items() if name != "version"}
    )
    return waiting


def test_older_work_goes_by_the_line_that_its_photo_is_signed_with(cast, document, older):
    final = decided(document)
    sign_delivery(document=final, person=cast.receiver)
    taken = jobs.take(older.pk)
    assert (taken.wants_advice, taken.versions) == (True, (str(cast.version.pk),))
    switch(cast, False)
    assert jobs.finish(taken, ADVICE)
    older.refresh_from_db()
    assert (older.state, Advisory.objects.count()) == ("unwanted", 0)


def test_older_work_is_done_where_the_photo_is_used_for_other_goods_too_that_want_advice(cast, document, older):
    from tests.factories import a_specification

    other = a_line(a_specification("VAN-2125", grade="21/25"))
    document["lines"].append(other)
    document["photos"].append(photo_entry(a_jpeg(), line_id=other["id"]))
    final = decided(document)
    sign_delivery(document=final, person=cast.receiver)
    switch(cast, False)
    assert jobs.take(older.pk).wants_advice


def test_older_work_of_an_open_delivery_is_done(cast, older):
    switch(cast, False)
    assert jobs.take(older.pk).wants_advice


# ---- over the wire ----------------------------------------------------------------------------------------
def address(cast) -> str:
    return f"/api/specifications/{cast.version.specification_id}/advice"


def test_group_operations_switch_over_the_wire(cast, signed_in):
    answer = signed_in(cast.group).post(address(cast), {"is_on": False}, content_type="application/json")
    told = answer.json()
    assert answer.status_code == 200
    assert (told["is_on"], told["version"], told["by"], told["code"]) == (False, 2, str(cast.group), "VAN-1620")


def test_the_switch_tells_who_set_it_so_and_not_who_wrote_the_newest_version(cast, signed_in):
    from inspections.records.services.reference import publish_specification

    switch(cast, False)
    specification = cast.version.specification
    changed = {**cast.version.data, "advisory": False, "units_per_carton": 4}
    publish_specification(code="VAN-1620", name=specification.name, data=changed, person=cast.administrator)
    told = signed_in(cast.group).post(address(cast), {"is_on": False}, content_type="application/json").json()
    assert (told["version"], told["since_version"], told["by"]) == (3, 2, str(cast.group))


@pytest.mark.parametrize("who", ["receiver", "manager", "stranger"])
def test_others_do_not_since_a_specification_holds_for_the_whole_group(cast, signed_in, who):
    answer = signed_in(cast.people[who]).post(address(cast), {"is_on": False}, content_type="application/json")
    assert (answer.status_code, answer.json()["code"]) == (403, "ROLE-NEEDED")
    assert SpecificationVersion.objects.count() == 1


def test_what_cannot_be_switched_gets_its_sentence(cast, signed_in):
    client = signed_in(cast.group)
    nobody = "/api/specifications/00000000-0000-7000-8000-000000000000/advice"
    assert client.post(nobody, {"is_on": False}, content_type="application/json").status_code == 404
    assert client.post(address(cast), {"is_on": "perhaps"}, content_type="application/json").status_code in (400, 422)


def test_the_reference_card_is_a_page_of_a6_to_print(cast, signed_in):
    # ISO 216: A6 is 105 mm x 148 mm; PDF counts in points of 1/72 inch.
    answer = signed_in(cast.receiver).get("/api/reference-card.pdf")
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    assert answer.content.startswith(b"%PDF-1.4")
    assert f"/MediaBox [0 0 {148 * 72 / 25.4:.3f} {105 * 72 / 25.4:.3f}]".encode() in answer.content


def test_the_page_about_the_card_names_the_length_that_is_on_it():
    said = (Path(__file__).resolve().parents[3] / "inspections/messages/en/desk.ftl").read_text("utf-8")
    length = round(card.SCALE_LENGTH_MM)
    assert f"from 0 to {length} it must measure {length} mm" in said


def test_a_stranger_without_sign_in_gets_no_card(client, db):
    assert client.get("/api/reference-card.pdf").status_code in (401, 403)
