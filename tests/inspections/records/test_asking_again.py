"""A newer method looks again: what is asked, what is passed over, and that nothing is replaced."""
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from imaging import advice, tasks
from inspections.records.models import Advisory, Delivery, Job
from inspections.records.services.reference import switch_advice
from tests.inspections.records.test_cutoffs import photographed

NEWER = "colour-99"


@pytest.fixture
def answered(cast) -> list[Advisory]:
    """Two photos of the quay, answered by the method of today."""
    return photographed(cast, 0.3, 0.3)


@pytest.fixture
def newer(answered, monkeypatch) -> str:
    """A newer method has come; what waited from signing is done."""
    Job.objects.all().delete()
    monkeypatch.setattr(advice, "METHOD_VERSION", NEWER)
    return NEWER


def again(**asked) -> str:
    out = StringIO()
    call_command("advise_again", stdout=out, **asked)
    return out.getvalue()


def test_what_the_current_method_has_answered_is_passed_over(answered):
    before = Job.objects.count()
    assert "2 photos of prawns. 0 are looked at again" in again()
    assert Job.objects.count() == before


def test_a_newer_method_looks_again_and_the_earlier_answer_stays(answered, newer):
    assert "2 are looked at again by the worker" in again()
    for job in Job.objects.all():
        tasks.run(str(job.pk))
    kept = Advisory.objects.filter(photo=answered[0].photo).order_by("created_at")
    assert [one.method_version for one in kept] == [answered[0].method_version, newer]
    answered[0].refresh_from_db()
    assert kept[0] == answered[0]


def test_asking_twice_is_asking_once(answered, newer):
    again()
    again()
    assert Job.objects.count() == 2


def test_everything_asks_again_whoever_answered(answered):
    Job.objects.all().delete()
    again(everything=True)
    again(everything=True)
    assert Job.objects.count() == 4


def test_a_dry_run_only_counts(answered, newer):
    assert "2 would be looked at again" in again(dry_run=True)
    assert not Job.objects.exists()


def test_only_the_site_the_days_and_the_delivery_asked_for(cast, answered, newer):
    photographed(cast, 0.3, site=cast.bend, method="colour-0")
    Job.objects.all().delete()
    one = Delivery.objects.get(site=cast.bend)
    assert "1 photos of prawns" in again(site="BEND")
    assert "2 photos of prawns" in again(site="QUAY")
    assert "0 photos of prawns" in again(first="2026-11-26")
    assert "3 photos of prawns" in again(first="2026-11-25", last="2026-11-26")
    assert "1 photos of prawns" in again(delivery=str(one.pk))


def switch(cast, is_on: bool) -> None:
    switch_advice(specification=cast.version.specification, is_on=is_on, person=cast.group)


def test_goods_whose_advice_is_switched_off_are_left_alone(cast, newer):
    switch(cast, False)
    photographed(cast, 0.3)
    Job.objects.all().delete()
    assert "3 photos of prawns. 0 are looked at again" in again()
    assert "3 are of goods without photo advice" in again()
    assert not Job.objects.exists()


def test_switched_on_again_only_what_was_signed_while_it_was_off_is_left_alone(cast, newer):
    switch(cast, False)
    photographed(cast, 0.3)
    switch(cast, True)
    Job.objects.all().delete()
    assert "3 photos of prawns. 2 are looked at again" in again()
    assert "1 are of goods without photo advice" in again()


def test_photos_whose_turn_came_while_it_was_off_are_advised_once_it_is_on(cast, newer):
    """The work was asked for twice: at signing, and again by the newer method; both came too late."""
    again()
    switch(cast, False)
    for job in Job.objects.all():
        tasks.run(str(job.pk))
    assert {job.state for job in Job.objects.all()} == {"unwanted"}
    switch(cast, True)
    assert "2 are looked at again by the worker" in again()
    assert {job.state for job in Job.objects.all()} == {"waiting"}
    for job in Job.objects.all():
        tasks.run(str(job.pk))
    assert Advisory.objects.filter(method_version=newer).count() == 2


@pytest.mark.parametrize(
    "asked", [{"site": "NOWHERE"}, {"first": "yesterday"}, {"delivery": "x"},
              {"delivery": "018f0000-0000-7000-8000-00000000ffff"}],
)
def test_what_cannot_be_used_gets_a_sentence(answered, asked):
    with pytest.raises(CommandError, match="Nothing was asked"):
        again(**asked)
