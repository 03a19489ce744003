"""People, sites, suppliers, specifications and equipment, as they are kept at the desk."""
import pytest

from inspections.people.models import Deed, Person
from inspections.records.models import SpecificationVersion, Supplier, Thermometer
from tests.factories import SPECIFICATION


@pytest.fixture(autouse=True)
def cheap_passwords(settings):
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture
def office(cast, signed_in):
    def send(who: str, method: str, address: str, body: dict):
        return getattr(signed_in(cast.people[who]), method)(f"/api/kept/{address}", body, format="json")

    return send


def a_new_person(cast, **more) -> dict:
    return {"username": "new", "name": "New One", "role": "receiver", "sites": [str(cast.quay.pk)],
            "password": "lantern-quay", **more}  # fmt: skip


def test_a_manager_adds_a_receiver_who_signs_in_at_once(cast, office, client):
    answer = office("manager", "post", "people", a_new_person(cast, pin="7294"))
    assert answer.status_code == 201
    assert (answer.json()["has_pin"], answer.json()["sites"]) == (True, [str(cast.quay.pk)])
    assert "password" not in answer.json()
    given = {"username": "new", "password": "lantern-quay"}
    assert client.post("/api/session", given, content_type="application/json").status_code == 200
    assert [deed.about for deed in Deed.objects.filter(what="person_added")] == ["people: New One"]


@pytest.mark.parametrize(
    ("who", "changes", "code"),
    [
        ("manager", {"role": "site_manager"}, "PERSON-ABOVE"), ("manager", {"role": "administrator"}, "PERSON-ABOVE"),
        ("group", {"role": "group_operations"}, "PERSON-ABOVE"), ("manager", {"sites": []}, "PERSON-SITES"),
        ("manager", {"sites": ["bend"]}, "PERSON-SITES"), ("manager", {"sites": ["x"]}, "FIELDS"),
        ("manager", {"password": ""}, "PERSON-PASSWORD"), ("manager", {"password": "short"}, "FIELDS"),
        ("manager", {"username": "receiver"}, "FIELDS"), ("manager", {"username": "no blanks"}, "FIELDS"),
        ("manager", {"pin": "1234"}, "PIN-SHAPE"), ("manager", {"name": ""}, "FIELDS"),
    ],
)  # fmt: skip
def test_what_cannot_be_added_is_refused_in_a_sentence_and_leaves_nothing(cast, office, who, changes, code):
    if changes.get("sites") == ["bend"]:
        changes = {"sites": [str(cast.bend.pk)]}
    before = Person.objects.count()
    answer = office(who, "post", "people", a_new_person(cast, **changes))
    assert (answer.status_code in (400, 403, 422), answer.json()["code"]) == (True, code)
    assert answer.json()["sentence"].endswith(".")
    assert Person.objects.count() == before


def test_who_works_at_another_site_too_is_not_one_manager_s_to_take_over(cast, office):
    cast.receiver.sites.add(cast.bend)
    address = f"people/{cast.receiver.pk}"
    assert office("manager", "put", address, {"password": "taken-over-9"}).status_code == 404
    assert office("group", "put", address, {"password": "given-anew-9"}).status_code == 200


def test_an_ended_account_is_signed_out_everywhere_and_stays_on_record(cast, office, signed_in):
    phone = signed_in(cast.receiver)
    assert phone.get("/api/deliveries").status_code == 200
    assert office("manager", "put", f"people/{cast.receiver.pk}", {"is_active": False}).status_code == 200
    assert phone.get("/api/deliveries").json()["code"] == "SIGN-IN-FIRST"
    assert Person.objects.filter(pk=cast.receiver.pk).exists()


def test_a_new_password_signs_its_owner_out_everywhere(cast, office, signed_in):
    phone = signed_in(cast.receiver)
    office("manager", "put", f"people/{cast.receiver.pk}", {"password": "another-quay"})
    assert phone.get("/api/deliveries").json()["code"] == "SIGN-IN-FIRST"
    assert Deed.objects.filter(what="password_set", about="Receiver").exists()


@pytest.mark.parametrize("changes", [{"is_active": False}, {"role": "receiver"}])
def test_an_administrator_does_not_lock_themselves_out(cast, office, changes):
    answer = office("administrator", "put", f"people/{cast.administrator.pk}", changes)
    assert (answer.status_code, answer.json()["code"]) == (422, "PERSON-ONESELF")


def test_a_change_of_what_was_agreed_is_the_next_version(cast, office):
    row = office("group", "post", "specifications", {"code": "MON-1315", "name": "Tiger", **SPECIFICATION}).json()
    assert (row["version"], row["grade"]) == (1, "16/20")
    changed = office("group", "put", f"specifications/{row['id']}", {"grade": "13/15"}).json()
    assert (changed["version"], changed["grade"], changed["species_code"]) == (2, "13/15", "PNV")
    refused = office("group", "put", f"specifications/{row['id']}", {"grade": "jumbo"})
    assert (refused.status_code, refused.json()["code"]) == (422, "SPEC-GRADE")
    ended = office("group", "put", f"specifications/{row['id']}", {"is_active": False}).json()
    assert (ended["is_active"], ended["version"]) == (False, 2)
    assert SpecificationVersion.objects.filter(specification__code="MON-1315").count() == 2


def test_a_supplier_s_field_that_cannot_be_used_is_named(cast, office):
    answer = office("group", "post", "suppliers", {"code": "NEW", "name": "New", "contact_email": "nowhere"})
    assert answer.status_code == 422
    assert "contact email" in answer.json()["sentence"]
    assert not Supplier.objects.filter(code="NEW").exists()


def test_a_thermometer_stays_at_sites_that_one_looks_after(cast, office):
    probe = Thermometer.objects.create(site=cast.quay, name="Probe")
    assert office("manager", "put", f"thermometers/{probe.pk}", {"site": str(cast.bend.pk)}).status_code == 404
    assert office("manager", "put", f"thermometers/{probe.pk}", {"accuracy_c": 0.3}).status_code == 200
    probe.refresh_from_db()
    assert (probe.site, probe.accuracy_c) == (cast.quay, 0.3)


@pytest.mark.parametrize("body", [[], "x", 7])
@pytest.mark.parametrize("kind", ["people", "sites", "suppliers", "specifications", "freezers"])
def test_what_is_no_entry_gets_a_sentence(cast, signed_in, kind, body):
    answer = signed_in(cast.administrator).post(f"/api/kept/{kind}", body, format="json")
    assert (answer.status_code, answer.json()["code"]) == (400, "FIELDS")


@pytest.mark.parametrize("odd", [None, 7, ["x"], {"a": 1}, "x" * 5000, True])
@pytest.mark.parametrize("field", ["username", "name", "email", "role", "sites", "is_active", "password", "pin"])
def test_odd_values_get_a_sentence_and_never_a_fault(cast, office, field, odd):
    answer = office("manager", "post", "people", a_new_person(cast, **{field: odd}))
    assert answer.status_code in (201, 400, 403, 422)


@pytest.mark.parametrize("odd", [None, 7, ["x"], {"a": 1}, "x" * 5000, True])
@pytest.mark.parametrize(
    ("kind", "field"),
    [(kind, field) for kind, fields in {
        "suppliers": ("name", "code", "contact_name", "contact_email", "is_active"),
        "sites": ("name", "code", "timezone", "currency", "market"),
        "specifications": ("name", "code", "grade", "origin", "overrides", "carton_net_g", "species_code"),
        "thermometers": ("site", "name", "accuracy_c", "last_checked_on", "last_check_c"),
    }.items() for field in fields],
)  # fmt: skip
def test_odd_values_of_other_entries_get_a_sentence_too(cast, office, kind, field, odd):
    body = {"name": "New", "code": "NEW", "site": str(cast.quay.pk), **SPECIFICATION, "market": "EU"}
    known = {"suppliers": ("name", "code"), "sites": ("name", "code"), "thermometers": ("name", "site"),
             "specifications": tuple(body)}[kind]  # fmt: skip
    answer = office("administrator", "post", kind, {**{name: body[name] for name in known}, field: odd})
    assert answer.status_code in (201, 400, 404, 422)
