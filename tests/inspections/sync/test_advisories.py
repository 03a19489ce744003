"""What the phone is told of the advice."""
from inspections.records import jobs
from inspections.records.advising import WAS_OFF
from inspections.records.models import Job, JobState, Photo
from inspections.records.services.advisory import record_advisory
from inspections.records.services.reference import switch_advice
from tests.inspections.receiving import Phone, advice_context, document, photo_entry, picture, sha256_of

ADVICE = {
    "answer": "darkening_seen", "share": 0.07, "share_low": 0.05, "share_high": 0.09, "where": ["head"],
    "reasons": [{"code": "DARK-HEAD", "text": "Dark parts at the heads."}], "card_used": False,
    "method_version": "1", "baseline_version": "1",
}


def told(phone, draft):
    return phone.client.get(f"/sync/advisories?delivery={draft['id']}").json()["photos"]


def test_null_until_it_is_there_then_the_advice_with_its_pictures(kitchen, phone):
    content = picture()
    draft = document(kitchen, photos=[photo_entry(content)])
    phone.put(draft)
    sha256 = sha256_of(content)
    assert told(phone, draft) == {sha256: None}
    phone.send_photo(content)
    context = advice_context(draft, draft["photos"][0])
    given = record_advisory(photo=Photo.objects.get(), context=context, advice=ADVICE,
                            overlay_name="derived/x/overlay", histogram_name="derived/x/histogram")
    assert told(phone, draft) == {sha256: {
        **ADVICE, "overlay": f"/api/photos/{sha256}/overlay?of={given.pk}",
        "histogram": f"/api/photos/{sha256}/histogram?of={given.pk}", "thumb": f"/api/photos/{sha256}/thumb",
    }}


def test_advice_for_another_purpose_does_not_count(kitchen, phone):
    content = picture()
    draft = document(kitchen, photos=[photo_entry(content)])
    phone.put(draft)
    phone.send_photo(content)
    context = {**advice_context(draft, draft["photos"][0]), "purpose": "defect"}
    record_advisory(photo=Photo.objects.get(), context=context, advice=ADVICE)
    assert told(phone, draft) == {sha256_of(content): None}


def test_where_the_worker_gave_up_the_phone_is_told_why(kitchen, phone):
    content = picture()
    draft = document(kitchen, photos=[photo_entry(content)])
    phone.put(draft)
    phone.send_photo(content)
    Job.objects.update(state=JobState.PARKED, sentence="The worker stopped 5 times.")
    given = told(phone, draft)[sha256_of(content)]
    assert given["answer"] == "cannot_tell"
    assert given["reasons"] == [{"code": "NOT-ANALYSED", "text": "The worker stopped 5 times."}]


def test_where_it_was_switched_off_while_the_photo_waited_the_phone_is_told(kitchen, phone):
    content = picture()
    draft = document(kitchen)
    draft["photos"] = [photo_entry(content, line_id=draft["lines"][0]["id"])]
    phone.put(draft)
    phone.send_photo(content)
    specification = kitchen.whiteleg.specification
    switch_advice(specification=specification, is_on=False, person=kitchen.manager)
    jobs.finish(jobs.take(Job.objects.get().pk), None)
    switch_advice(specification=specification, is_on=True, person=kitchen.manager)
    given = told(phone, draft)[sha256_of(content)]
    assert given["answer"] == "switched_off"
    assert given["reasons"] == [{"code": "WAS-SWITCHED-OFF", "text": WAS_OFF}]


def test_only_for_the_site_and_only_for_a_delivery(kitchen, phone):
    draft = document(kitchen)
    phone.put(draft)
    at = f"/sync/advisories?delivery={draft['id']}"
    assert Phone(kitchen.stranger).client.get(at).status_code == 403
    assert phone.client.get("/sync/advisories?delivery=nonsense").status_code == 400
    assert phone.client.get("/sync/advisories?delivery=018f0000-0000-7000-8000-00000000ffff").status_code == 404


def test_while_open_the_receivers_finding_comes_before_the_advice(kitchen, phone):
    content = picture()
    draft = document(kitchen)
    line = draft["lines"][0]
    carton = line["cartons"][0]
    carton["pieces"], carton["looked_at"] = {}, None
    draft["photos"] = [photo_entry(content, line_id=line["id"], carton_id=carton["id"], purpose="sample")]
    phone.put(draft)
    phone.send_photo(content)
    context = advice_context(draft, draft["photos"][0])
    record_advisory(photo=Photo.objects.get(), context=context, advice=ADVICE)
    assert told(phone, draft)[sha256_of(content)]["answer"] == "finding_first"
    carton["pieces"], carton["looked_at"] = {"black_spot": 0}, 20
    phone.put(draft, 1)
    assert told(phone, draft)[sha256_of(content)]["answer"] == "darkening_seen"
