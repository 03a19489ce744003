"""Signing: what becomes a record, and what is refused with which sentence."""

import pytest

from inspections.errors import Forbidden, Unprocessable
from inspections.records.models import Carton, Delivery, DocketLine, Finding, Reading
from tests.factories import a_carton, a_document, a_line, a_person, decided, fresh_id, reading, sign_delivery


@pytest.fixture
def document(cast) -> dict:
    return decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, a_line(cast.version)))


def sign(cast, document: dict, person=None) -> Delivery:
    return sign_delivery(document=document, person=person or cast.receiver)


def refused(cast, document: dict) -> Unprocessable:
    with pytest.raises(Unprocessable) as caught:
        sign(cast, document)
    assert not Delivery.objects.exists()
    assert not DocketLine.objects.exists()
    return caught.value


def test_a_sound_delivery_becomes_rows(cast, document):
    delivery = sign(cast, document)
    line = delivery.lines.get()
    assert (line.suggested, line.decided, line.accepted) == ("accept", "accept", 3)
    assert Carton.objects.filter(line=line, is_defective=False).count() == 3
    assert delivery.document == document
    assert delivery.difference is None


def test_readings_keep_what_was_entered_beside_its_value(cast):
    carton = a_carton(temperature={"product": reading("-0,4", "F"), "method": "core", "thermometer_id": None})
    line = a_line(cast.version, carton, a_carton(2), a_carton(3))
    sign(cast, decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, line)))
    kept = Reading.objects.get(carton_id=carton["id"], kind="product")
    # -0.4 °F is -18 °C exactly: (F - 32) x 5/9.
    assert (kept.value, kept.unit, kept.entered, kept.entered_unit, kept.method) == (-18.0, "C", "-0,4", "F", "core")


def test_a_carton_above_minus_12_is_a_critical_finding_and_is_refused(cast):
    # CV-5-20: warmer than -12 °C is refused (limit product_c.reject of the documented default).
    warm = a_carton(temperature={"product": reading("-9,5", "C"), "method": "core", "thermometer_id": None})
    line = a_line(cast.version, warm, a_carton(2), a_carton(3))
    delivery = sign(cast, decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, line)))
    finding = Finding.objects.get(carton_id=warm["id"], kind="TEMP-REJECT")
    assert (finding.severity, finding.measured, finding.bound) == ("critical", -9.5, -12.0)
    # All three were opened: each is judged by itself.
    kept = delivery.lines.get()
    assert (kept.decided, kept.accepted, kept.refused) == ("accept_with_allowance", 2, 1)
    assert Carton.objects.get(pk=warm["id"]).is_defective


def test_each_finding_of_a_carton_is_one_row(cast):
    torn = a_carton(liner="torn")
    line = a_line(cast.version, torn, a_carton(2), a_carton(3))
    delivery = sign(cast, decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, line)))
    assert delivery.findings.filter(kind="LINER-TORN").count() == 1


def test_the_phones_other_judgement_is_kept_beside_the_servers(cast, document):
    document["lines"][0]["suggested"]["suggestion"] = "reject"
    delivery = sign(cast, document)
    assert delivery.difference == [{"path": "lines[0].suggested.suggestion", "phone": "reject", "server": "accept"}]
    assert delivery.lines.get().suggested == "accept"


def test_a_phone_that_kept_no_suggestion_differs(cast, document):
    document["lines"][0]["suggested"] = None
    assert sign(cast, document).difference[0]["path"] == "lines[0].suggested"


def test_a_departure_with_a_reason_is_kept(cast, document):
    document["lines"][0]["decision"] |= {"kind": "hold", "accepted": 0, "held": 3, "reason": "Box looked wet"}
    line = sign(cast, document).lines.get()
    assert (line.suggested, line.decided, line.departed_because) == ("accept", "hold", "Box looked wet")


def test_a_departure_without_a_reason_is_refused(cast, document):
    document["lines"][0]["decision"] |= {"kind": "hold", "accepted": 0, "held": 3}
    assert refused(cast, document).code == "SIGN-NO-REASON"


def test_a_line_without_a_decision_is_refused(cast, document):
    document["lines"][0]["decision"] = None
    assert refused(cast, document).facts["line"] == 1


@pytest.mark.parametrize(
    ("parts", "counted"), [((2, 0, 0), 3), ((3, 1, 0), 3), ((4, -1, 0), 3), (("3", 0, 0), 3), ((2.5, 0.5, 0), 3)]
)
def test_quantities_that_do_not_add_up_are_refused(cast, document, parts, counted):
    accepted, rejected, held = parts
    document["lines"][0]["decision"] |= {"accepted": accepted, "refused": rejected, "held": held}
    refusal = refused(cast, document)
    # Other kinds are found at the door, unfit entries by the judgement, sums by the decision: each with its place.
    assert refusal.code in ("DOC-SHAPE", "SIGN-NOT-BALANCED", "SIGN-UNUSABLE")


def test_a_rejected_line_with_accepted_cartons_is_refused(cast, document):
    document["lines"][0]["decision"] |= {"kind": "reject", "reason": "x"}
    assert refused(cast, document).code == "SIGN-CONTRADICTS"


def test_uncounted_cartons_are_refused(cast, document):
    document["lines"][0]["cartons_counted"] = None
    assert refused(cast, document).code in ("SIGN-NOT-COUNTED", "SIGN-UNUSABLE")


def test_an_unusable_weight_is_refused_with_its_place_and_sentence(cast, document):
    document["lines"][0]["cartons"][1]["weights"]["deglazed"] = reading("two kilos", "kg")
    refusal = refused(cast, document)
    assert (refusal.code, refusal.facts["path"]) == ("SIGN-UNUSABLE", "lines[0].cartons[1].weights.deglazed")
    assert "two kilos" in str(refusal)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"schema": 2}, "DOC-SCHEMA"),
        ({"id": "7"}, "DOC-SHAPE"),
        ({"lines": "none"}, "DOC-SHAPE"),
        ({"lines": []}, "SIGN-NO-LINES"),
        ({"supplier_id": "00000000-0000-7000-8000-0000000000ff"}, "SIGN-NO-SUPPLIER"),
        ({"order_id": "00000000-0000-7000-8000-0000000000ff"}, "SIGN-NO-ORDER"),
        ({"docket_number": "  "}, "SIGN-NO-DOCKET"),
        ({"arrived_at": "this morning"}, "SIGN-NO-ARRIVAL"),
        ({"arrived_at": "2026-11-25T06:10:00"}, "SIGN-NO-ARRIVAL"),
        ({"limits_id": "00000000-0000-7000-8000-0000000000ff"}, "LIMITS-UNKNOWN"),
        ({"signatures": None}, "SIGN-NO-RECEIVER"),
    ],
)
def test_a_document_that_lacks_its_head_is_refused(cast, document, changes, code):
    assert refused(cast, {**document, **changes}).code == code


def test_an_unknown_specification_is_refused_with_the_line(cast, document):
    document["lines"][0]["specification_id"] = fresh_id()
    refusal = refused(cast, document)
    assert (refusal.code, refusal.facts) == ("SPECIFICATION-UNKNOWN", {"line": 1})


def test_a_lot_number_too_long_to_be_kept_is_refused_with_the_line(cast, document):
    document["lines"][0]["lot"] = "9" * 81
    refusal = refused(cast, document)
    assert (refusal.code, refusal.facts) == ("SIGN-LONG-LOT", {"line": 1, "most": 80})
    document["lines"][0]["lot"] = "9" * 80
    assert sign_delivery(document=decided(document), person=cast.receiver)


def test_a_receivers_empty_pad_is_no_signature(cast, document):
    document["signatures"]["receiver"]["strokes"] = []
    assert refused(cast, document).code == "SIGN-NO-RECEIVER"


def test_a_driver_may_decline_with_a_reason(cast, document):
    document["signatures"]["driver"] = {"refused": True, "reason": "", "at": "2026-11-25T06:30:00+00:00"}
    assert refused(cast, document).code == "SIGN-NO-DRIVER"
    document["signatures"]["driver"]["reason"] = "Would not wait"
    assert sign(cast, document).pk


def test_another_sites_receiver_cannot_sign(cast, document):
    with pytest.raises(Forbidden):
        sign(cast, document, person=cast.other_receiver)
    assert not Delivery.objects.exists()


def test_somebody_who_left_cannot_sign(cast, document):
    gone = a_person("gone", "administrator")
    gone.is_active = False
    with pytest.raises(Forbidden):
        sign(cast, document, person=gone)
