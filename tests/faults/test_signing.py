"""Signing and saving, killed in between, twice at once, from two phones."""
import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connections

from inspections.evidence.checking import verify_chain
from inspections.evidence.models import Seal
from inspections.records.models import Addendum, Delivery, Job
from inspections.sync import signing
from inspections.sync.models import Document, DocumentRevision, IdempotencyKey
from tests.inspections.receiving import (
    OTHER_DEVICE,
    Phone,
    decide,
    document,
    keep,
    photo_entry,
    picture,
    put_away,
)


class Killed(BaseException):
    """The process ends here."""


def killed(*args, **kwargs):
    raise Killed


def at_once(*deeds) -> list:
    """Run deeds in threads that start together; their answers, in order."""
    start = threading.Barrier(len(deeds))

    def run(deed):
        try:
            start.wait(5)
            return deed()
        finally:
            connections.close_all()

    with ThreadPoolExecutor(len(deeds)) as pool:
        return [future.result() for future in [pool.submit(run, deed) for deed in deeds]]


@pytest.mark.parametrize("step", ["write_delivery", "_close", "delivery_content", "seal"])
def test_killed_inside_the_signing_leaves_nothing_and_the_same_request_signs(kitchen, phone, monkeypatch, step):
    content = picture()
    keep(content)
    final = decide(document(kitchen, photos=[photo_entry(content)]))
    phone.put(document(kitchen) | {"id": final["id"]})
    with monkeypatch.context() as patch:
        patch.setattr(signing, step, killed)
        with pytest.raises(Killed):
            phone.sign(final)
    for model in (Delivery, Seal, IdempotencyKey, Job):
        assert not model.objects.exists(), model
    assert Document.objects.get().state == "open"
    answer = phone.sign(final)
    assert answer.status_code == 200
    assert (Delivery.objects.count(), Seal.objects.count(), Job.objects.count()) == (1, 1, 1)
    assert verify_chain(kitchen.site) == []


def test_killed_after_the_signing_before_its_answer_gives_the_same_answer_later(kitchen, phone, monkeypatch):
    from inspections.sync import api

    final = decide(document(kitchen))
    with monkeypatch.context() as patch:
        patch.setattr(api, "Response", killed)
        with pytest.raises(Killed):
            phone.sign(final)
    seal = Seal.objects.get()
    assert phone.sign(final).json()["seal"]["sha256"] == seal.sha256
    assert Seal.objects.count() == 1


def test_twins_of_one_signature_make_one_seal(kitchen):
    final = decide(document(kitchen))
    answers = at_once(*[lambda: Phone(kitchen.receiver).sign(final)] * 4)
    assert {answer.status_code for answer in answers} <= {200, 409}
    seals = {answer.json()["seal"]["sha256"] for answer in answers if answer.status_code == 200}
    assert len(seals) == 1
    assert all(answer["Retry-After"] for answer in answers if answer.status_code == 409)
    assert (Delivery.objects.count(), Seal.objects.count()) == (1, 1)


def test_twins_with_other_keys_make_one_seal(kitchen):
    final = decide(document(kitchen))
    answers = at_once(*[
        lambda key=key: Phone(kitchen.receiver).sign(final, f"twin-key-{key:04}") for key in range(4)
    ])
    seals = {answer.json()["seal"]["sha256"] for answer in answers if answer.status_code == 200}
    assert len(seals) == 1
    assert Seal.objects.count() == 1


def test_two_people_who_sign_one_delivery_otherwise_get_one_seal_between_them(kitchen):
    final = decide(document(kitchen))
    other = {**final, "notes": "by the other"}
    answers = at_once(
        lambda: Phone(kitchen.receiver).sign(final, "receiver-key-1"),
        lambda: Phone(kitchen.other_receiver).sign(other, "other-key-0001"),
    )
    assert sorted(answer.status_code for answer in answers) == [200, 409]
    assert Seal.objects.count() == 1


def test_deliveries_signed_at_once_stand_in_one_chain_without_gaps(kitchen):
    finals = [decide(document(kitchen, docket=f"DN-{number}")) for number in range(6)]
    answers = at_once(*[
        lambda final=final: Phone(kitchen.receiver).sign(final, f"chain-key-{final['docket_number']}")
        for final in finals
    ])
    assert [answer.status_code for answer in answers] == [200] * 6
    assert list(Seal.objects.order_by("number").values_list("number", flat=True)) == [1, 2, 3, 4, 5, 6]
    assert verify_chain(kitchen.site) == []


def test_twins_of_a_first_saving_make_one_document(kitchen):
    draft = document(kitchen)
    answers = at_once(*[lambda: Phone(kitchen.receiver).put(draft)] * 4)
    assert {(answer.status_code, answer.json()["revision"]) for answer in answers} == {(201, 1)}
    assert DocumentRevision.objects.count() == 1


def test_of_two_changes_on_one_revision_one_is_taken_and_the_other_is_a_choice(kitchen, phone):
    draft = document(kitchen)
    phone.put(draft)
    answers = at_once(*[
        lambda note=note: Phone(kitchen.receiver).put({**draft, "notes": note}, 1) for note in "abcd"
    ])
    assert sorted(answer.status_code for answer in answers) == [200, 412, 412, 412]
    won = next(answer for answer in answers if answer.status_code == 200)
    assert won.json() == {"revision": 2}
    lost = next(answer for answer in answers if answer.status_code == 412)
    assert lost.json()["current"] == Document.objects.get().body


def test_two_phones_that_start_on_one_docket_at_once_are_told_of_each_other(kitchen):
    one = document(kitchen, docket="DN-9")
    other = document(kitchen, docket="dn 9", device=OTHER_DEVICE)
    answers = at_once(
        lambda: Phone(kitchen.receiver).put(one), lambda: Phone(kitchen.other_receiver).put(other)
    )
    assert sorted(answer.status_code for answer in answers) == [201, 409]
    assert Document.objects.count() == 1


def test_twins_of_an_addendum_make_one_seal(kitchen, phone):
    final = decide(document(kitchen))
    phone.sign(final)
    added = put_away(kitchen, final)
    answers = at_once(*[lambda: Phone(kitchen.receiver).add(added)] * 4)
    assert {answer.status_code for answer in answers} == {200}
    assert len({answer.json()["seal"]["sha256"] for answer in answers}) == 1
    assert (Addendum.objects.count(), Seal.objects.count()) == (1, 2)


def test_a_put_away_that_comes_before_its_signature_waits_without_harm(kitchen, phone):
    final = decide(document(kitchen))
    added = put_away(kitchen, final)
    assert phone.add(added).status_code == 404
    phone.sign(final)
    assert phone.add(added).status_code == 200
