"""Limits and plans tried on what was signed: nothing is changed, and what would have been otherwise is named."""
import json
from copy import deepcopy
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from inspections import messages
from inspections.errors import Unprocessable
from inspections.people.models import Person, Role
from inspections.records import tried_limits
from inspections.records.models import Delivery
from inspections.records.shape.door import read_delivery
from inspections.records.tried_limits import Side, try_limits
from inspections.sync.signing import sign
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.sampling import plan_for
from tests.inspections.receiving import decide, document, make_kitchen


@pytest.fixture
def signed(db) -> list[dict]:
    kitchen = make_kitchen()
    finals = [decide(document(kitchen)), decide(document(kitchen, docket="DN-5531", bad=True))]
    for final in finals:
        sign(sent=read_delivery(final), person=kitchen.receiver)
    return finals


def stricter(code: str, bound: float) -> dict:
    return {**DEFAULT_LIMITS, "limits": [
        {**one, "bound": bound} if one["code"] == code else one for one in DEFAULT_LIMITS["limits"]
    ]}  # fmt: skip


def colder() -> dict:
    """Product at -19.5 between packs: past -30 °C, all of it is too warm."""
    limits = deepcopy(stricter("product_c.reject", -30.0))
    for one in limits["limits"]:
        if one["code"] in ("product_c.tolerance", "product_c.within"):
            one["bound"] = -40.0
    return limits


def test_the_same_limits_change_nothing(signed):
    tried = try_limits(Delivery.objects.all(), DEFAULT_LIMITS)
    assert (tried.deliveries, tried.lines, tried.not_told, tried.changed) == (2, 2, 0, [])
    assert tried.before == tried.after


def test_a_stricter_limit_changes_what_it_touches_and_says_which(signed, tmp_path):
    file = tmp_path / "cold.json"
    file.write_text(json.dumps(colder()))
    out, before = StringIO(), list(Delivery.objects.values_list("pk", "judgement"))
    call_command("try_limits", "--limits", str(file), stdout=out)
    told = out.getvalue()
    assert "2 deliveries, 2 lines; 0 lines not told" in told
    sound = Delivery.objects.get(docket_number=signed[0]["docket_number"])
    assert f"/desk/deliveries/{sound.pk}" in told
    assert list(Delivery.objects.values_list("pk", "judgement")) == before


def test_the_desk_tries_a_set_and_gets_every_changed_line_with_its_delivery(signed, client):
    person = Person.objects.create_user("group", password="x", role=Role.GROUP_OPERATIONS)
    client.force_login(person)
    body = {"limits": colder(), "from": "2026-01-01", "to": "2027-12-31"}
    told = client.post("/api/limits/trials", body, content_type="application/json").json()
    sound = Delivery.objects.get(docket_number=signed[0]["docket_number"])
    assert (told["deliveries"], told["lines"]) == (2, 2)
    assert str(sound.pk) in [one["delivery_id"] for one in told["changed"]]
    assert told["after"]["refused"] > told["before"]["refused"]
    assert client.post("/api/limits/trials", {}, content_type="application/json").json()["code"] == "TRIAL-NOTHING"
    odd = client.post("/api/limits/trials", {"limits": {"limits": []}}, content_type="application/json")
    assert (odd.status_code, odd.json()["code"]) == (422, "LIMITS-06")


def test_a_trial_of_too_many_deliveries_is_refused_before_it_begins(signed, monkeypatch):
    monkeypatch.setattr(tried_limits, "MOST_DELIVERIES", 1)
    with pytest.raises(Unprocessable) as refused:
        tried_limits.trial_json(Delivery.objects.all(), DEFAULT_LIMITS, "")
    assert refused.value.code == "TRIAL-MANY"


def test_a_plan_that_asks_for_more_than_was_opened_is_not_told(signed):
    asked = plan_for("codex_2", 20)
    assert asked.n > 3
    tried = try_limits(Delivery.objects.all(), None, "codex_2")
    assert (tried.not_told, tried.changed) == (2, [])


def test_bad_ones_are_known_where_all_were_opened_and_estimated_elsewhere():
    """By hand: 1 bad of 5 opened, 15 closed and taken, is 3 of 15; Wilson's interval of 1 in 5 is 3.6 % to 62.4 %."""
    side = Side()
    side.add({"suggestion": "accept_with_allowance", "sampling": {"opened": 4, "defective": 2, "lot": 4},
              "suggested_split": {"accepted": 2, "refused": 2, "held": 0}})
    side.add({"suggestion": "accept", "sampling": {"opened": 5, "defective": 1, "lot": 20},
              "suggested_split": {"accepted": 20, "refused": 0, "held": 0}})
    assert (side.known_bad, side.known_caught) == (2, 2)
    about, low, high = side.missed()
    assert (about, low, high) == (pytest.approx(3.0), pytest.approx(0.54, abs=0.01), pytest.approx(9.37, abs=0.01))


@pytest.mark.parametrize(("words", "told"), [
    ((), "Nothing to try"), (("--limits", "/nowhere.json"), "could not be read"),
    (("--plan", "house", "--from", "May"), "is not a day"), (("--plan", "house", "--site", "XYZ"), "no site XYZ"),
])
def test_what_cannot_be_tried_is_said(db, words, told):
    with pytest.raises(CommandError, match=told):
        call_command("try_limits", *words)


def test_the_page_says_how_many_are_judged_at_once():
    told = (Path(messages.__file__).parent / "en" / "desk.ftl").read_text("utf-8")
    assert f"At most {tried_limits.MOST_DELIVERIES} deliveries" in told
