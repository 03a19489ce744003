"""The desk's addresses answer in the shapes that the desk reads."""
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from inspections.records import jobs, storage
from inspections.records.models import Advisory, Delivery, Job, LimitSet, Photo, Supplier
from inspections.records.photo_answers import photos_in
from inspections.records.services.advisory import record_advisory
from tests.factories import (
    a_carton,
    a_document,
    a_jpeg,
    a_line,
    a_put_away,
    add_addendum,
    an_order,
    decided,
    photo_entry,
    reading,
    sign_delivery,
)
from tests.inspections.records.test_jobs import ADVICE, CONTEXT
from tests.inspections.records.test_photos import store


def sign(cast, *, site=None, person=None, lines=None, **changes) -> Delivery:
    lines = lines or [a_line(cast.version)]
    document = a_document(site or cast.quay, cast.supplier, cast.limits, person or cast.receiver, *lines, **changes)
    return sign_delivery(
        document=decided(document), person=person or cast.receiver
    )


def test_a_list_tells_each_line_and_whether_the_phone_differed(cast, signed_in):
    delivery = sign(cast)
    answer = signed_in(cast.manager).get("/api/deliveries").json()
    assert (answer["page"], answer["pages"], answer["count"]) == (1, 1, 1)
    row = answer["rows"][0]
    assert (row["id"], row["differs"], row["state"]) == (str(delivery.pk), False, "signed")
    assert row["site"] == {"id": str(cast.quay.pk), "name": "Kitchen QUAY", "code": "QUAY"}
    assert row["lines"][0] == {
        "number": 1, "specification": "Prawns VAN-1620", "suggested": "accept", "decided": "accept",
        "departed_because": "", "accepted": 3, "refused": 0, "held": 0,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("query", "count"),
    [
        ("", 2), ("q=dn-77", 1), ("q=L42", 2), ("q=REEF", 2), ("q=nothing", 0), ("state=signed", 2),
        ("state=put_away", 0), ("from=2026-11-26", 1), ("to=2026-11-25", 1), ("from=2026-11-25&to=2026-11-26", 2),
        ("page=9", 2), ("refused=yes", 0),
    ],
)  # fmt: skip
def test_a_list_is_narrowed_by_what_is_asked(cast, signed_in, query, count):
    sign(cast, docket_number="DN-77")
    sign(cast, docket_number="DN-88", arrived_at="2026-11-26T06:10:00+00:00")
    assert signed_in(cast.manager).get(f"/api/deliveries?{query}").json()["count"] == count


def test_only_deliveries_with_refused_or_held_cartons_are_listed_when_asked(cast, signed_in):
    sign(cast, docket_number="DN-77")
    warm = [a_carton(place, temperature={"product": reading("-2,0", "C"), "method": "between_packs",
                                         "thermometer_id": None}) for place in (1, 2, 3)]
    line = sign(cast, docket_number="DN-88", lines=[a_line(cast.version, *warm)]).lines.get()
    assert line.refused + line.held == 3
    rows = signed_in(cast.manager).get("/api/deliveries?refused=yes").json()["rows"]
    assert [row["docket_number"] for row in rows] == ["DN-88"]


def test_a_day_is_counted_by_the_clock_of_each_site(cast, signed_in):
    # 20:30 UTC on the 25th is half past six on the 26th in Brisbane (UTC+10, no summer time) and still the 25th here.
    for site, person in ((cast.quay, cast.receiver), (cast.bend, cast.other_receiver)):
        sign(cast, site=site, person=person, arrived_at="2026-11-25T20:30:00+00:00")
    answer = signed_in(cast.group).get("/api/deliveries?from=2026-11-26&to=2026-11-26").json()
    assert [row["site"]["code"] for row in answer["rows"]] == ["BEND"]


def test_a_query_that_cannot_be_read_gets_a_sentence(cast, signed_in):
    answer = signed_in(cast.manager).get("/api/deliveries?from=yesterday")
    assert (answer.status_code, answer.json()["code"]) == (400, "FIELDS")


def test_one_delivery_tells_everything(cast, signed_in):
    content = a_jpeg()
    photo = store(content)
    line = a_line(cast.version)
    entry = photo_entry(content, line_id=line["id"], carton_id=line["cartons"][0]["id"])
    delivery = sign(cast, lines=[line], photos=[entry])
    add_addendum(delivery=delivery, addendum=a_put_away(delivery.document), person=cast.receiver)
    answer = signed_in(cast.manager).get(f"/api/deliveries/{delivery.pk}").json()
    assert answer["document"] == delivery.document
    assert answer["judgement"]["lines"][0]["suggestion"] == "accept"
    assert (answer["state"], answer["addenda"][0]["kind"]) == ("put_away", "put_away")
    assert [one["code"] for one in answer["specifications"]] == ["VAN-1620"]
    assert answer["limit_set"]["version"] == 1
    assert answer["photos"] == [{
        "id": entry["id"], "sha256": photo.sha256, "purpose": "under_liner", "line_id": line["id"],
        "carton_id": line["cartons"][0]["id"], "taken_at": entry["taken_at"], "is_stored": True,
        "unreadable": None, "advice": None, "earlier": [],
    }]  # fmt: skip


@pytest.fixture
def photographed(cast) -> Delivery:
    """A signed delivery of the quay with one photo, which the worker has not come to."""
    store(a_jpeg())
    line = a_line(cast.version)
    return sign(cast, lines=[line], photos=[photo_entry(a_jpeg(), line_id=line["id"])])


def test_the_newest_advice_is_told_with_its_pictures_and_the_earlier_ones_beside_it(cast, photographed):
    photo = Photo.objects.get()
    first = record_advisory(photo=photo, context=CONTEXT, advice={**ADVICE, "answer": "cannot_tell", "share": None})
    second = record_advisory(photo=photo, context=CONTEXT, advice={**ADVICE, "method_version": "2"}, overlay_name="x")
    third = record_advisory(photo=photo, context=CONTEXT, advice={**ADVICE, "method_version": "3"}, overlay_name="y")
    told = photos_in(photographed.document)[0]
    at = f"/api/photos/{photo.sha256}/overlay?of="
    assert (told["advice"]["method_version"], told["advice"]["overlay"]) == ("3", f"{at}{third.pk}")
    assert told["earlier"] == [
        {"id": str(second.pk), "method_version": "2", "answer": "none_seen", "share": 0.01, "share_low": 0.0,
         "share_high": 0.03, "pieces": None, "dark_pieces": None,
         "at": second.created_at.isoformat(), "overlay": f"{at}{second.pk}"},
        {"id": str(first.pk), "method_version": "1", "answer": "cannot_tell", "share": None, "share_low": 0.0,
         "share_high": 0.03, "pieces": None, "dark_pieces": None, "at": first.created_at.isoformat(), "overlay": None},
    ]  # fmt: skip


def test_advice_given_for_another_purpose_is_not_told(photographed):
    record_advisory(photo=Photo.objects.get(), context={**CONTEXT, "purpose": "defect"}, advice=ADVICE)
    told = photos_in(photographed.document)[0]
    assert (told["advice"], told["earlier"]) == (None, [])


def test_work_that_was_given_up_cannot_tell_and_says_why(photographed):
    assert photos_in(photographed.document)[0]["advice"] is None
    Job.objects.update(state="parked", sentence="The worker stopped.")
    told = photos_in(photographed.document)[0]["advice"]
    assert (told["answer"], told["reasons"]) == (
        "cannot_tell", [{"code": "NOT-ANALYSED", "text": "The worker stopped."}]
    )  # fmt: skip


def test_work_that_was_given_up_and_is_asked_for_anew_is_still_to_come(photographed):
    Job.objects.update(state="parked", sentence="The worker stopped.")
    subject = Job.objects.get().subject
    jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": subject["sha256"], "context": subject["context"], "again": "2"})
    assert photos_in(photographed.document)[0]["advice"] is None


@pytest.fixture
def shown(photographed) -> Photo:
    """A photo of a signed delivery of the quay."""
    return Photo.objects.get()


def body(answer) -> bytes:
    return b"".join(answer.streaming_content)


def test_a_photo_is_given_as_taken(cast, signed_in, shown):
    answer = signed_in(cast.manager).get(f"/api/photos/{shown.sha256}/original")
    assert (body(answer), answer["Content-Type"]) == (a_jpeg(), "image/jpeg")
    assert "immutable" in answer["Cache-Control"]


def test_until_the_small_picture_is_made_the_photo_itself_comes_and_is_not_kept(cast, signed_in, shown):
    answer = signed_in(cast.manager).get(f"/api/photos/{shown.sha256}/thumb")
    assert (body(answer), answer["Cache-Control"]) == (a_jpeg(), "private, no-cache")
    storage.put(storage.derived_name(shown.sha256, "thumb"), a_jpeg(1))
    assert body(signed_in(cast.manager).get(f"/api/photos/{shown.sha256}/thumb")) == a_jpeg(1)


def test_the_frames_are_given_once_they_are_there_and_to_those_of_the_site(cast, signed_in, shown):
    name = "overlay"
    client, address = signed_in(cast.manager), f"/api/photos/{shown.sha256}/{name}"
    assert client.get(address).json()["code"] == f"NO-{name.upper()}"
    taken = jobs.take(Job.objects.get().pk)
    jobs.finish(taken, ADVICE, {name: b"\x89PNG\r\n\x1a\nmarked"})
    answer = client.get(address)
    assert (body(answer), answer["Content-Type"]) == (b"\x89PNG\r\n\x1a\nmarked", "image/png")
    given = Advisory.objects.get()
    told = photos_in(Delivery.objects.get().document)[0]["advice"]
    assert told[name] == f"{address}?of={given.pk}"
    assert body(client.get(told[name])) == b"\x89PNG\r\n\x1a\nmarked"
    assert client.get(f"{address}?of=018f0000-0000-7000-8000-00000000ffff").status_code == 404
    assert client.get(f"{address}?of=x").json()["code"] == "FIELDS"
    assert signed_in(cast.other_manager).get(address).status_code == 404


def test_orders_tell_what_came_of_them(cast, signed_in):
    order = an_order(cast.quay, cast.supplier, cast.version, "2026-11-25")
    delivery = sign(cast, order_id=str(order.pk))
    row = signed_in(cast.manager).get("/api/orders?from=2026-11-25&to=2026-11-25").json()["rows"][0]
    assert (row["number"], row["lines"][0]["cartons"]) == ("O-1", 10)
    assert row["deliveries"] == [{"id": str(delivery.pk), "docket_number": delivery.docket_number}]


def test_limits_are_published_as_a_new_version(cast, signed_in):
    client = signed_in(cast.group)
    current = client.get("/api/limits").json()["current"]
    for limit in current["limits"]:
        if limit["code"] == "broken_share":
            limit["bound"] = 0.08
    answer = client.post("/api/limits", current, format="json")
    assert (answer.status_code, answer.json()["current"]["version"]) == (201, 2)
    assert [one["version"] for one in answer.json()["versions"]] == [2, 1]


def test_limits_that_contradict_are_refused_in_a_sentence(cast, signed_in):
    client = signed_in(cast.group)
    current = client.get("/api/limits").json()["current"]
    answer = client.post("/api/limits", {**current, "limits": current["limits"][:3]}, format="json")
    assert (answer.status_code, answer.json()["code"]) == (422, "LIMITS-06")
    assert LimitSet.objects.count() == 1


def test_a_specification_is_published_by_the_group(cast, signed_in):
    given = {"code": "NEW", "name": "New", "data": {**cast.version.data, "grade": "21/25"}}
    answer = signed_in(cast.group).post("/api/specifications", given, format="json")
    assert (answer.status_code, answer.json()["version"], answer.json()["grade"]) == (201, 1, "21/25")
    codes = [row["code"] for row in signed_in(cast.receiver).get("/api/specifications").json()["rows"]]
    assert codes == ["NEW", "VAN-1620"]


def test_a_table_is_imported_as_the_body_or_as_a_form(cast, signed_in):
    client = signed_in(cast.group)
    dry = client.post("/api/imports/suppliers?dry_run=1", "code;name\nA;One\n", content_type="text/csv")
    assert (dry.status_code, dry.json()["added"], Supplier.objects.count()) == (200, 1, 1)
    wet = client.post("/api/imports/suppliers", "code;name\nA;One\n", content_type="text/csv")
    assert (wet.json()["added"], wet.json()["is_dry_run"]) == (1, False)
    file = SimpleUploadedFile("a.csv", b"code;name\nB;Two\n", "text/csv")
    assert client.post("/api/imports/suppliers", {"file": file}, format="multipart").json()["added"] == 1


def test_bad_lines_come_back_one_by_one(cast, signed_in):
    text = "code;name;contact_email\nA;One;nobody\n"
    answer = signed_in(cast.group).post("/api/imports/suppliers", text, content_type="text/csv")
    assert (answer.status_code, answer.json()["code"]) == (422, "IMPORT-LINES")
    assert [(one["line"], one["column"], one["value"]) for one in answer.json()["errors"]] == [
        (2, "contact_email", "nobody")
    ]


def test_an_import_without_a_file_is_refused(cast, signed_in):
    answer = signed_in(cast.group).post("/api/imports/suppliers", {}, format="json")
    assert answer.json()["code"] == "IMPORT-NO-FILE"


def test_a_search_costs_the_same_however_many_deliveries(cast, signed_in, django_assert_max_num_queries):
    for _ in range(4):
        sign(cast)
    client = signed_in(cast.manager)
    with django_assert_max_num_queries(9):
        assert client.get("/api/deliveries").json()["count"] == 4
