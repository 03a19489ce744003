"""Work that was given up: seen by who answers for the photo's site, and tried again when they say so."""
import pytest

from inspections.people.models import Deed
from inspections.records import jobs
from inspections.records.models import Job, JobState
from tests.inspections.receiving import Phone, decide, document, make_kitchen, photo_entry, picture, sha256_of

CONTENT = picture("coral")
REASON = "The photo could not be decoded. It is kept as it was taken."


@pytest.fixture
def kitchen(db):
    return make_kitchen()


@pytest.fixture
def delivery(kitchen) -> str:
    phone, final = Phone(kitchen.receiver), decide(document(kitchen, photos=[photo_entry(CONTENT)]))
    phone.send_photo(CONTENT)
    assert phone.sign(final).status_code == 200
    job = jobs.take(Job.objects.get().pk)
    assert jobs.fail(job, REASON, retry=False)
    return final["id"]


def test_a_parked_job_is_listed_with_its_reason_and_docket(kitchen, delivery):
    (row,) = Phone(kitchen.manager).client.get("/api/parked").json()["rows"]
    assert (row["reason"], row["sha256"]) == (REASON, sha256_of(CONTENT))
    assert row["deliveries"] == [{"id": delivery, "docket_number": "DN-5530"}]


def test_tried_again_it_waits_as_if_never_tried_and_the_trail_tells(kitchen, delivery):
    office = Phone(kitchen.manager).client
    (row,) = office.get("/api/parked").json()["rows"]
    assert office.post(f"/api/parked/{row['id']}").status_code == 204
    job = Job.objects.get()
    assert (job.state, job.attempts, job.sentence) == (JobState.WAITING, 0, "")
    assert jobs.take(job.pk).attempt == 1
    assert office.get("/api/parked").json()["rows"] == []
    assert office.post(f"/api/parked/{row['id']}").status_code == 404
    assert Deed.objects.filter(what="photo_tried_again", about=sha256_of(CONTENT)).count() == 1


def test_another_site_sees_and_tries_nothing_of_it(kitchen, delivery):
    elsewhere = Phone(kitchen.stranger).client
    assert elsewhere.get("/api/parked").json() == {"rows": []}
    assert elsewhere.post(f"/api/parked/{Job.objects.get().pk}").status_code == 404
    assert Job.objects.get().state == JobState.PARKED
