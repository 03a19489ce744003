"""What a phone takes along."""
from datetime import date, timedelta

from django.utils import timezone

from inspections.records.models import Order, SpecificationVersion, Thermometer
from tests.inspections.receiving import Phone, decide, document


def read(phone, **headers):
    return phone.client.get("/sync/reference", headers=headers)


def test_it_holds_all_that_the_walk_needs(kitchen, phone):
    Order.objects.update(expected_on=timezone.now().date())
    told = read(phone).json()
    assert told["me"]["name"] == "Mia Castel"
    assert [site["code"] for site in told["me"]["sites"]] == ["HAR"]
    assert {spec["id"] for spec in told["specifications"]} == {str(kitchen.whiteleg.pk), str(kitchen.tiger.pk)}
    assert told["current_limits_id"] == str(kitchen.limits.pk)
    assert told["limit_sets"][0]["limits"]
    assert told["installation"]["public_key"].startswith("-----BEGIN PUBLIC KEY-----")
    (order,) = told["expected"]
    assert order["number"] == "PO-88"
    assert order["lines"][0]["price_per_kg"] == "14.5"
    assert told["freezers"] == [
        {"id": str(kitchen.freezer.pk), "site_id": str(kitchen.site.pk), "name": "Freezer 2"}
    ]


def test_a_thermometer_comes_with_its_last_check_in_ice(kitchen, phone):
    probe = Thermometer.objects.create(
        site=kitchen.site, name="Probe 2", accuracy_c=0.5, last_checked_on=date(2026, 11, 20), last_check_c=0.6,
        check_due_on=date(2026, 12, 20),
    )
    Thermometer.objects.create(site=kitchen.site, name="Probe 9", in_use=False)
    assert read(phone).json()["thermometers"] == [
        {"id": str(probe.pk), "site_id": str(kitchen.site.pk), "name": "Probe 2", "accuracy_c": 0.5,
         "last_checked_on": "2026-11-20", "last_check_c": 0.6, "check_due_on": "2026-12-20", "last_checked_at": None,
         "in_use": True}
    ]


def test_unchanged_data_are_not_sent_again(kitchen, phone):
    tag = read(phone)["ETag"]
    again = read(phone, **{"If-None-Match": tag})
    assert again.status_code == 304
    assert again["ETag"] == tag
    assert not again.content
    kitchen.freezer.name = "Freezer 3"
    kitchen.freezer.save()
    changed = read(phone, **{"If-None-Match": tag})
    assert changed.status_code == 200
    assert changed["ETag"] != tag


def test_open_documents_of_the_site_are_told_and_signed_ones_not(kitchen, phone, other_phone):
    draft = document(kitchen)
    phone.put(draft, **{"X-Underlid-Device": "dock phone"})
    (opened,) = read(other_phone).json()["open_documents"]
    assert opened["id"] == draft["id"]
    assert opened["person_name"] == "Mia Castel"
    assert opened["device_label"] == "dock phone"
    assert read(Phone(kitchen.stranger)).json()["open_documents"] == []
    phone.sign(decide(draft))
    assert read(other_phone).json()["open_documents"] == []


def test_a_delivered_order_is_no_longer_expected_and_an_old_one_neither(kitchen, phone):
    today = timezone.now().date()
    Order.objects.update(expected_on=today)
    phone.sign(decide(document(kitchen)))
    assert read(phone).json()["expected"] == []
    Order.objects.create(number="PO-1", supplier=kitchen.supplier, site=kitchen.site,
                         expected_on=today - timedelta(days=8))
    assert read(phone).json()["expected"] == []


def test_the_newest_version_is_told_and_the_one_that_an_open_document_names(kitchen, phone):
    newer = SpecificationVersion.objects.create(
        specification=kitchen.whiteleg.specification, version=2, data=kitchen.whiteleg.data
    )
    Order.objects.all().delete()
    ids = {spec["id"] for spec in read(phone).json()["specifications"]}
    assert ids == {str(newer.pk), str(kitchen.tiger.pk)}
    phone.put({**document(kitchen), "order_id": None})
    ids = {spec["id"] for spec in read(phone).json()["specifications"]}
    assert str(kitchen.whiteleg.pk) in ids
