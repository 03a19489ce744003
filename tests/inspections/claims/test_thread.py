"""From a verdict to a credit: who may say what, what is sealed, and that no amount comes from nowhere."""
from datetime import timedelta
from decimal import Decimal as D
from typing import get_args
from uuid import uuid4

import pytest
from django.db import connection
from django.utils import timezone

from inspections.claims import standing as stands
from inspections.claims.answers import EntryKind
from inspections.claims.models import Claim, SupplierTerms
from inspections.claims.services import Said, change_claim, draft_claim, drop_draft, say
from inspections.claims.standing import may_say, standing_of
from inspections.claims.thread import thread_of
from inspections.errors import Conflict, Forbidden, Unprocessable
from inspections.evidence import guards
from inspections.evidence.checking import verify_chain
from inspections.evidence.models import Seal, SealKind
from inspections.records.models import ClaimEntry, Delivery, OrderLine
from tests.inspections.claims.conftest import send_claim
from tests.inspections.receiving import decide, document


def kitchen_says(claim, kitchen, kind, **more):
    return say(claim=claim, said=Said(kind, "kitchen", kitchen.manager.name, kitchen.manager, **more))


def supplier_says(claim, kind, **more):
    return say(claim=claim, said=Said(kind, "supplier", "Ade Winter", **more))


def test_a_refused_line_is_claimed_whole_at_the_price_of_its_order(kitchen, refused):
    claim = draft_claim(line=refused.lines.get(), person=kitchen.manager)
    assert [(one["ground"], one["amount"]) for one in claim.items] == [("refused", "2900.00")]  # 20 x 10 kg x 14.50
    assert claim.number == "HAR-C1"
    assert claim.currency == "AUD"
    assert any("−9.5" in one["text"].replace("-", "−") for one in claim.found)
    assert all(one["whose"] for one in claim.found)
    assert claim.notice_until - refused.arrived_at == timedelta(hours=24)
    assert "common practice" in claim.notice_basis
    assert not ClaimEntry.objects.exists()


def test_short_weight_and_smaller_grade_are_reckoned_on_what_was_kept(kitchen, phone):
    draft = document(kitchen)
    for carton in draft["lines"][0]["cartons"]:
        carton["weights"]["deglazed"]["entered"] = "1924"
        carton["sample"] = carton["sample"] | {"pieces": 46}
    final = decide(draft)
    line = final["lines"][0]
    assert line["decision"]["kind"] == "accept_with_allowance"
    assert phone.sign(final).status_code == 200
    delivery = Delivery.objects.get()
    claim = draft_claim(line=delivery.lines.get(), person=kitchen.manager)
    by = {one["ground"]: one for one in claim.items}
    # 20 cartons x 5 units x 76 g = 7.6 kg; what is not there is no smaller grade: 200 - 7.6 = 192.4 kg.
    assert by["short_weight"]["amount"] == "110.20"
    assert by["grade"]["figures"]["kg"] == "192.4"
    assert by["grade"]["amount"] is None
    with pytest.raises(Unprocessable) as refused:
        send_claim(claim=claim, person=kitchen.manager)
    assert refused.value.code == "CLAIM-OPEN-FIGURE"
    figures = by["grade"]["figures"] | {"price_delivered": "12.10"}
    change_claim(claim=claim, person=kitchen.manager,
                 items=[by["short_weight"], {"ground": "grade", "figures": figures}])
    send_claim(claim=Claim.objects.get(), person=kitchen.manager)
    assert Claim.objects.get().claimed == D("110.20") + D("461.76")  # 192.4 x 2.40


def test_the_price_of_the_grade_that_came_is_that_of_the_same_supplier(kitchen, phone):
    other = kitchen.tiger
    other.specification.__class__.objects.filter(pk=other.specification_id).update(name="Whiteleg 21/25")
    smaller = other.__class__.objects.create(
        specification=other.specification, version=2, data=kitchen.whiteleg.data | {"grade": "21/25"})
    OrderLine.objects.create(order=kitchen.order, specification_version=smaller, cartons=2, price_per_kg="12.10")
    draft = document(kitchen)
    for carton in draft["lines"][0]["cartons"]:
        carton["sample"] = carton["sample"] | {"pieces": 46}
    assert phone.sign(decide(draft)).status_code == 200
    claim = draft_claim(line=Delivery.objects.get().lines.get(), person=kitchen.manager)
    grade = next(one for one in claim.items if one["ground"] == "grade")
    assert grade["amount"] == "480.00"  # 200 kg x (14.50 - 12.10)


def test_a_sound_line_gives_nothing_to_claim(kitchen, phone):
    assert phone.sign(decide(document(kitchen))).status_code == 200
    with pytest.raises(Unprocessable) as refused:
        draft_claim(line=Delivery.objects.get().lines.get(), person=kitchen.manager)
    assert refused.value.code == "CLAIM-NOTHING"


@pytest.mark.parametrize(("changed", "code"), [
    ({"amount": "2500"}, "CLAIM-REASON"),
    ({"figures": {"cartons": "19", "net_kg": "10", "price": "14.50"}}, "CLAIM-REASON"),
    ({"ground": "luck"}, "CLAIM-GROUND"), ({"amount": "-1"}, "CLAIM-NUMBER"),
])  # fmt: skip
def test_a_changed_amount_needs_its_reason(kitchen, refused, changed, code):
    claim = draft_claim(line=refused.lines.get(), person=kitchen.manager)
    with pytest.raises(Unprocessable) as said:
        change_claim(claim=claim, items=[claim.items[0] | changed], person=kitchen.manager)
    assert said.value.code == code
    assert Claim.objects.get().items == claim.items


def test_a_changed_amount_with_its_reason_is_sent_with_both(kitchen, refused):
    claim = draft_claim(line=refused.lines.get(), person=kitchen.manager)
    lower = claim.items[0] | {"amount": "2500", "reason": "Two cartons were used for tasting."}
    change_claim(claim=claim, items=[lower], person=kitchen.manager)
    entry = send_claim(claim=Claim.objects.get(), person=kitchen.manager)
    item = entry.document["items"][0]
    assert (item["computed"], item["amount"], item["reason"]) == ("2900.00", "2500.00", lower["reason"])
    with pytest.raises(Conflict) as said:
        change_claim(claim=claim, items=[lower], person=kitchen.manager)
    assert said.value.code == "CLAIM-SENT"


def test_terms_of_the_supplier_give_currency_and_both_periods(kitchen, refused):
    SupplierTerms.objects.create(supplier=kitchen.supplier, currency="JPY", notice_hours=72, answer_hours=36)
    OrderLine.objects.update(price_per_kg="1450.5")
    claim = draft_claim(line=refused.lines.get(), person=kitchen.manager)
    assert claim.items[0]["amount"] == "290100"
    entry = send_claim(claim=claim, person=kitchen.manager)
    claim = Claim.objects.get()
    assert claim.answer_until - entry.at == timedelta(hours=36)
    assert claim.notice_until - refused.arrived_at == timedelta(hours=72)


def test_the_whole_way_to_a_credit_is_sealed_and_the_row_is_what_the_seals_make_it(kitchen, claim):
    supplier_says(claim, "contest", text="The truck was cold.", points=[{"item": 0, "text": "Only nine were warm."}])
    kitchen_says(claim, kitchen, "note", text="The photo shows the probe.")
    supplier_says(claim, "offer", amount="1,305.00")
    kitchen_says(claim, kitchen, "offer", amount="2000")
    supplier_says(claim, "accept")
    kitchen_says(claim, kitchen, "credit", amount="2000", credit_note="CN-771")
    row = Claim.objects.get()
    assert (row.state, row.agreed, row.credited, row.credit_note) == ("settled", 2000, 2000, "CN-771")
    assert row.closed_at is not None
    documents = list(ClaimEntry.objects.values_list("document", flat=True))
    made = standing_of(documents)
    for name in ("state", "claimed", "offered", "offered_by", "agreed", "credited", "credit_note"):
        assert getattr(row, name) == getattr(made, name), name
    assert [one["number"] for one in documents] == list(range(1, 8))
    assert Seal.objects.filter(kind=SealKind.CLAIM).count() == 7
    assert verify_chain(kitchen.site) == []


def test_an_altered_entry_is_found(kitchen, claim):
    guards.remove()
    with connection.cursor() as cursor:
        cursor.execute("UPDATE records_claimentry SET kind = 'note'")
    assert any("row of an entry of a claim" in str(one) for one in verify_chain(kitchen.site))
    guards.install()


def test_the_same_answer_sent_twice_is_one(claim):
    key = uuid4()
    first, second = (supplier_says(claim, "ask", text="Which lot?", id=key) for _ in range(2))
    assert first.pk == second.pk
    assert ClaimEntry.objects.count() == 2


NOT_NOW = [
    (["offer-s"], "supplier", "accept"), (["offer-k"], "kitchen", "accept"), (["agree-s"], "supplier", "offer"),
    (["agree-s", "credit"], "kitchen", "withdraw"), (["withdraw"], "supplier", "ask"), ([], "kitchen", "agree"),
    ([], "supplier", "credit"), ([], "supplier", "withdraw"), ([], "kitchen", "send"),
]  # fmt: skip


@pytest.mark.parametrize(("before", "side", "kind"), NOT_NOW)
def test_what_cannot_be_said_at_this_point_changes_nothing(kitchen, claim, before, side, kind):
    says = {"s": supplier_says, "k": lambda *told, **more: kitchen_says(told[0], kitchen, *told[1:], **more)}
    for one in before:
        word, _, who = one.partition("-")
        says[who or "k"](claim, word, text="x", amount="2900" if word == "credit" else "10", credit_note="CN")
    count = ClaimEntry.objects.count()
    with pytest.raises(Conflict) as said:
        says[side[0]](claim, kind, text="x", amount="10", credit_note="CN")
    assert said.value.code == "CLAIM-NOT-NOW"
    assert ClaimEntry.objects.count() == count


@pytest.mark.parametrize(("kind", "told", "code"), [
    ("contest", {}, "CLAIM-WORDS"), ("ask", {"text": "  "}, "CLAIM-WORDS"), ("offer", {}, "CLAIM-AMOUNT"),
    ("offer", {"amount": "ten"}, "CLAIM-NUMBER"), ("ask", {"text": "x" * 4001}, "CLAIM-LONG"),
])
def test_an_answer_that_says_nothing_is_not_kept(claim, kind, told, code):
    with pytest.raises(Unprocessable) as said:
        supplier_says(claim, kind, **told)
    assert said.value.code == code
    assert ClaimEntry.objects.count() == 1


def test_a_credit_of_another_amount_than_agreed_needs_its_reason(kitchen, claim):
    supplier_says(claim, "agree")
    for told, code in (({"amount": "2900"}, "CLAIM-CREDIT"),
                       ({"amount": "2800", "credit_note": "CN-1"}, "CLAIM-CREDIT-OTHER")):
        with pytest.raises(Unprocessable) as said:
            kitchen_says(claim, kitchen, "credit", **told)
        assert said.value.code == code
    kitchen_says(claim, kitchen, "credit", amount="2800", credit_note="CN-1", text="Carriage taken off, as agreed.")
    assert Claim.objects.get().credited == 2800


def test_a_receiver_or_another_site_s_manager_drafts_and_says_nothing(kitchen, refused):
    for person in (kitchen.receiver, kitchen.stranger):
        with pytest.raises(Forbidden):
            draft_claim(line=refused.lines.get(), person=person)


def test_one_line_has_one_claim_until_it_is_given_up(kitchen, refused):
    line = refused.lines.get()
    first = draft_claim(line=line, person=kitchen.manager)
    with pytest.raises(Conflict) as said:
        draft_claim(line=line, person=kitchen.manager)
    assert said.value.code == "CLAIM-THERE"
    drop_draft(claim=first, person=kitchen.manager)
    assert draft_claim(line=line, person=kitchen.manager).number == "HAR-C2"


def test_every_state_that_is_open_has_a_way_on_and_a_closed_one_has_none():
    for state in stands.STATES:
        ways = [way for side in ("kitchen", "supplier") for way in may_say(stands.Standing(state), side)]
        assert bool(ways) == (state in stands.OPEN), state
        assert set(ways) <= set(get_args(get_args(EntryKind)[0]))


def test_an_amount_does_not_fall_due_twice(kitchen, claim):
    Claim.objects.update(answer_until=timezone.now())
    supplier_says(claim, "agree")
    kitchen_says(claim, kitchen, "credit", amount="2900", credit_note="CN-9")
    with pytest.raises(Conflict):
        kitchen_says(claim, kitchen, "credit", amount="2900", credit_note="CN-9")
    assert Claim.objects.get().credited == 2900


def test_an_offer_above_the_claim_is_taken_only_when_it_is_meant(kitchen, claim):
    """Of AUD 2,900.00: a slip of a digit must not bind anybody; who means it says so, and both sides read it."""
    with pytest.raises(Unprocessable) as said:
        supplier_says(claim, "offer", amount="29000")
    assert said.value.code == "CLAIM-ABOVE"
    assert str(said.value).startswith("AUD 29,000.00 is more than the AUD 2,900.00 claimed. Nothing was sent")
    with pytest.raises(Unprocessable):
        kitchen_says(claim, kitchen, "offer", amount="2900.01")
    assert ClaimEntry.objects.count() == 1
    supplier_says(claim, "offer", amount="2900", text="All of it.")
    supplier_says(claim, "offer", amount="3000", is_above_meant=True)
    assert Claim.objects.get().offered == 3000
    assert [one["is_above"] for one in thread_of(Claim.objects.get())] == [False, False, True]
