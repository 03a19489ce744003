"""The worth of the advice as the desk asks for it: who may, what is counted, and what is kept apart."""
import re
from datetime import UTC, datetime, timedelta

import pytest
from django.utils import timezone

from inspections.comparison import advised, agreement
from inspections.records.models import Advisory, Delivery, PhotoUse
from inspections.records.services.advisory import record_advisory
from inspections.records.services.reference import switch_advice
from tests.factories import a_specification
from tests.inspections.records.test_cutoffs import CONTEXT, photographed
from tests.inspections.records.test_jobs import ADVICE
from tests.inspections.tamper import behind

YEAR = {"from": "2026-01-01", "to": "2026-12-31"}


def received(cast, *answers: str, black_spot: int | None = 0, site=None, person=None) -> list[Advisory]:
    """One delivery of a carton for each answer, each with so many of 20 pieces that had black spot."""
    pieces = {"broken": 0} if black_spot is None else {"black_spot": black_spot, "broken": 0}
    given = photographed(cast, *[0.3] * len(answers), site=site, pieces=pieces)
    for advisory, answer in zip(given, answers, strict=True):
        Advisory.objects.filter(pk=advisory.pk).update(answer=answer, would_say=answer)
    return given


@pytest.fixture
def ask(signed_in):
    def get(person, **query):
        return signed_in(person).get("/api/agreement", {**YEAR, **query})
    return get


def shares(counted: dict) -> dict:
    return {name: (counted[name]["count"], counted[name]["of"]) for name in ("agreeing", "right_flags", "flagged")}


def test_answers_are_counted_against_what_receivers_found(cast, ask):
    received(cast, "darkening_seen", "darkening_seen", "none_seen", black_spot=2)
    received(cast, "darkening_seen", "none_seen", "cannot_tell")
    told = ask(cast.group).json()
    assert (told["all"]["cartons"], told["all"]["deliveries"]) == (6, 2)
    found = {answer: row["beyond"] + row["within"] for answer, row in told["all"]["table"].items()}
    assert found == {"darkening_seen": 2, "none_seen": 1, "cannot_tell": 0}
    assert {answer: row["none"] for answer, row in told["all"]["table"].items()} == {
        "darkening_seen": 1, "none_seen": 1, "cannot_tell": 1}
    assert shares(told["all"]) == {"agreeing": (3, 5), "right_flags": (2, 3), "flagged": (2, 3)}
    assert told["all"]["untold"] == {"count": 1, "of": 6, "share": 1 / 6, "too_few": True,
                                     "low": pytest.approx(0.0301, abs=1e-4), "high": pytest.approx(0.5635, abs=1e-4)}


def test_the_limit_says_what_is_beyond(cast, ask):
    received(cast, "darkening_seen", black_spot=1)
    received(cast, "darkening_seen", black_spot=15)
    assert ask(cast.group).json()["all"]["table"]["darkening_seen"] == {"beyond": 1, "within": 1, "none": 0}


def test_not_looked_at_for_black_spot_is_nothing_to_compare_with__CV_0_06(cast, ask):
    received(cast, "darkening_seen", "none_seen", black_spot=None)
    told = ask(cast.group).json()
    assert (told["all"]["cartons"], told["all"]["nothing_to_compare"]) == (0, 2)
    flags = told["all"]["right_flags"]
    assert (flags["count"], flags["of"], flags["share"], flags["low"], flags["too_few"]) == (0, 0, None, None, True)
    assert {site["code"]: site["nothing_to_compare"] for site in told["sites"]} == {"QUAY": 2, "BEND": 0}


def test_a_photo_without_an_answer_is_counted_as_unanswered(cast, ask):
    received(cast, "none_seen")
    Advisory.objects.all().delete()
    told = ask(cast.group).json()
    assert (told["all"]["cartons"], told["all"]["nothing_to_compare"], told["unanswered"]) == (0, 0, 1)
    assert {site["code"]: site["unanswered"] for site in told["sites"]} == {"QUAY": 1, "BEND": 0}


def test_advice_for_another_purpose_is_no_answer(cast, ask):
    received(cast, "none_seen")
    behind(PhotoUse).update(purpose="top")
    assert ask(cast.group).json()["unanswered"] == 1


def test_photos_of_the_load_are_not_asked_about(cast, ask):
    received(cast, "cannot_tell")
    behind(PhotoUse).update(purpose="load")
    told = ask(cast.group).json()
    assert (told["all"]["cartons"], told["unanswered"]) == (0, 0)


def test_any_photo_of_the_carton_that_shows_darkening_is_enough(cast, ask):
    first, second = received(cast, "none_seen", "darkening_seen", black_spot=2)
    carton = PhotoUse.objects.get(photo=first.photo).carton_id
    behind(PhotoUse).filter(photo=second.photo).update(carton_id=carton)
    told = ask(cast.group).json()
    assert (told["all"]["cartons"], shares(told["all"])["right_flags"]) == (1, (1, 1))


def test_the_newest_answer_counts_and_its_method_is_told(cast, ask):
    advisory = received(cast, "darkening_seen")[0]
    record_advisory(photo=advisory.photo, context=CONTEXT, advice={**ADVICE, "method_version": "colour-99"})
    told = ask(cast.group).json()
    assert told["all"]["wrong_flags"]["count"] == 0
    assert told["methods"] == [{"version": "colour-99", "photos": 1}]


# ---- could the receiver have read it? ---------------------------------------------------------------------
def test_advice_that_came_after_signing_is_counted_by_itself(cast, ask):
    blind, maybe, _ = (received(cast, "none_seen")[0], received(cast, "none_seen")[0], received(cast, "none_seen"))
    # the receiver signed at 06:30 by the phone, the server has it since now
    signed = datetime.fromisoformat("2026-11-25T06:30:00+00:00")
    for advisory, came in ((blind, signed + timedelta(minutes=11)), (maybe, signed + timedelta(minutes=9))):
        Advisory.objects.filter(pk=advisory.pk).update(created_at=came)
    told = ask(cast.group).json()
    assert (told["blind"]["cartons"], told["maybe_read"]["cartons"]) == (2, 1)


def test_with_the_phone_s_clock_ahead_the_server_s_has_the_word(cast, ask):
    advisory = received(cast, "none_seen")[0]
    earlier = timezone.now() - timedelta(days=400)
    behind(Delivery).update(signed_at=earlier)
    Advisory.objects.filter(pk=advisory.pk).update(created_at=earlier + timedelta(seconds=1))
    assert ask(cast.group).json()["blind"]["cartons"] == 1


def test_a_later_method_does_not_make_an_answer_unread(cast, ask):
    advisory = received(cast, "none_seen")[0]
    Advisory.objects.update(created_at=datetime.fromisoformat("2026-11-25T06:20:00+00:00"))
    record_advisory(photo=advisory.photo, context=CONTEXT, advice=ADVICE)
    assert ask(cast.group).json()["maybe_read"]["cartons"] == 1


def test_a_signature_without_a_time_leaves_the_server_s(cast, ask):
    advisory = received(cast, "none_seen")[0]
    signed = Delivery.objects.get().signed_at
    behind(Delivery).update(receiver_signed_at=None)
    assert ask(cast.group).json()["blind"]["cartons"] == 1
    Advisory.objects.filter(pk=advisory.pk).update(created_at=signed - timedelta(seconds=1))
    assert ask(cast.group).json()["blind"]["cartons"] == 0


def test_a_phone_whose_clock_stands_at_the_end_of_time_leaves_the_server_s(cast, ask):
    received(cast, "none_seen")
    behind(Delivery).update(receiver_signed_at=datetime.max.replace(tzinfo=UTC))
    assert ask(cast.group).json()["blind"]["cartons"] == 1


def test_an_answer_that_is_older_than_another_does_not_count_whatever_the_order_of_writing(cast, ask):
    advisory = received(cast, "none_seen", black_spot=2)[0]
    older = record_advisory(photo=advisory.photo, context=CONTEXT, advice={**ADVICE, "answer": "darkening_seen"})
    Advisory.objects.filter(pk=older.pk).update(created_at=advisory.created_at - timedelta(hours=1))
    assert shares(ask(cast.group).json()["all"])["right_flags"] == (0, 0)


def test_a_photo_of_two_cartons_tells_for_both(cast, ask):
    first, second = received(cast, "darkening_seen", "none_seen", black_spot=2)
    behind(PhotoUse).filter(photo=second.photo).update(photo=first.photo)
    assert shares(ask(cast.group).json()["all"])["right_flags"] == (2, 2)


# ---- by site, specification, species ----------------------------------------------------------------------
def test_sites_specifications_and_species_each_have_their_counts(cast, ask):
    received(cast, "darkening_seen", black_spot=2)
    received(cast, "none_seen", "none_seen", site=cast.bend)
    a_specification("TIGER", species_code="GIT")
    told = ask(cast.group).json()
    assert {site["code"]: site["cartons"] for site in told["sites"]} == {"QUAY": 1, "BEND": 2}
    assert [(one["code"], one["is_on"], one["cartons"]) for one in told["specifications"]] == [
        ("TIGER", True, 0), ("VAN-1620", True, 3)]
    assert [(one["code"], one["name"], one["cartons"]) for one in told["species"]] == [("PNV", "Whiteleg shrimp", 3)]


def test_versions_of_a_specification_are_counted_together_and_the_switch_tells_who_and_when(cast, ask):
    received(cast, "none_seen")
    version = switch_advice(specification=cast.version.specification, is_on=False, person=cast.group)
    one = ask(cast.group).json()["specifications"][0]
    assert (one["version"], one["is_on"], one["by"], one["at"]) == (2, False, "Group", version.created_at.isoformat())
    assert one["cartons"] == 1


def test_too_few_is_said_below_the_stated_numbers(cast, ask, monkeypatch):
    received(cast, "none_seen", "none_seen")
    assert ask(cast.group).json()["all"]["agreeing"]["too_few"] is True
    assert ask(cast.group).json()["threshold"] == {"cartons": 20, "deliveries": 5}
    monkeypatch.setattr(agreement, "MIN_CARTONS", 2)
    monkeypatch.setattr(agreement, "MIN_DELIVERIES", 1)
    assert ask(cast.group).json()["all"]["agreeing"]["too_few"] is False


# ---- who may, and which days ------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("who", "status"), [("receiver", 403), ("stranger", 403), ("manager", 200), ("group", 200), ("administrator", 200)]
)
def test_only_those_who_answer_for_a_site_may_see_it(cast, ask, who, status):
    assert ask(cast.people[who]).status_code == status


def test_nobody_sees_it_without_signing_in(client, db):
    assert client.get("/api/agreement").json()["code"] == "SIGN-IN-FIRST"


def test_a_manager_sees_own_sites_and_nothing_of_the_others(cast, ask):
    received(cast, "none_seen")
    received(cast, "none_seen", "none_seen", site=cast.bend)
    told = ask(cast.manager).json()
    assert [site["code"] for site in told["sites"]] == ["QUAY"]
    assert told["all"]["cartons"] == told["specifications"][0]["cartons"] == told["species"][0]["cartons"] == 1
    refused = ask(cast.manager, site=str(cast.bend.pk))
    assert (refused.status_code, refused.json()["code"]) == (403, "NOT-YOURS")


def test_one_site_and_a_period_may_be_asked_for(cast, ask):
    received(cast, "none_seen")
    received(cast, "none_seen", "none_seen", site=cast.bend)
    assert ask(cast.group, site=str(cast.bend.pk)).json()["all"]["cartons"] == 2
    # 06:10 UTC on the 25th is the 25th at both
    assert ask(cast.group, to="2026-11-24").json()["all"]["cartons"] == 0
    assert ask(cast.group, **{"from": "2026-11-25"}).json()["all"]["cartons"] == 3
    assert ask(cast.group, to="yesterday").json()["code"] == "PERIOD-DATE"


def test_nothing_delivered_is_all_none(cast, ask):
    told = ask(cast.group).json()
    assert (told["all"]["cartons"], told["all"]["agreeing"]["share"], told["species"]) == (0, None, [])


def test_queries_do_not_grow_with_deliveries(cast, signed_in, django_assert_max_num_queries):
    for _ in range(3):
        received(cast, "none_seen", "darkening_seen", black_spot=2)
        received(cast, "none_seen", "cannot_tell", site=cast.bend)
    for code in ("A", "B", "C"):
        a_specification(code)
    client = signed_in(cast.group)
    # two of the session and the person, the rest of the answer, however much there is
    with django_assert_max_num_queries(13):
        assert client.get("/api/agreement", YEAR).json()["all"]["cartons"] == 12


def test_a_delivery_signed_while_the_page_is_made_does_no_harm(cast, ask, monkeypatch):
    received(cast, "none_seen")
    plain = advised._lines

    def and_one_more(sites, period):
        found = plain(sites, period)
        received(cast, "darkening_seen")
        return found

    monkeypatch.setattr(advised, "_lines", and_one_more)
    assert ask(cast.group).json()["all"]["cartons"] == 1


#: Of these tables no JSON is read: at 10,000 cartons reading it cost seconds.
MANY_ROWS = r'(carton|delivery|docketline|advisory|photouse)"\."(data|derived|document|judgement|context|body)"'


def test_no_json_of_the_many_rows_is_read(cast, signed_in, django_assert_max_num_queries):
    received(cast, "none_seen", "darkening_seen", black_spot=2)
    received(cast, "none_seen")
    client = signed_in(cast.group)
    with django_assert_max_num_queries(13) as asked:
        client.get("/api/agreement", YEAR)
    assert [query["sql"] for query in asked if re.search(MANY_ROWS, query["sql"])] == []


# ---- the cut-offs that it goes by -------------------------------------------------------------------------
def test_the_cut_offs_stand_there_with_how_many_findings_they_rest_on(cast, ask):
    photographed(cast, *[0.4] * 3, site=cast.bend, pieces={"black_spot": 0})
    told = ask(cast.group).json()["learnt"]
    row = next(one for one in told["rows"] if one["species_code"] == "PNV")
    assert (row["sound"], row["spotted"], row["from"]) == (3, 0, "shipped")
    assert told["kept_aside"] == {}


def test_what_it_would_have_said_is_compared_where_frames_alone_were_shown(cast, ask):
    given = photographed(cast, 0.9, pieces={"black_spot": 3})[0]
    given.answer, given.would_say = "look_here", "darkening_seen"
    given.save()
    assert ask(cast.group).json()["all"]["flagged"]["count"] == 1
