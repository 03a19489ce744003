"""Whatever a phone sends, signing answers with a record or with a refusal in a sentence, never with a fault."""
from copy import deepcopy

import pytest
from django.db import transaction

from inspections.errors import ApiProblem
from inspections.records.models import Delivery
from tests.factories import a_carton, a_document, a_line, a_put_away, add_addendum, decided, reading, sign_delivery

JUNK = ("", "x", 7, -1, 2.5, True, None, [], ["x"], {}, {"x": 1}, "9" * 400, "\x00", "\ud800")
#: Each place gets so many of them, in turn, so that all places together get all of them many times.
AT_EACH_PLACE = 4


def places(part, path=()):
    """Every place of a document, as a path of keys."""
    entries = part.items() if isinstance(part, dict) else enumerate(part) if isinstance(part, list) else ()
    for key, value in entries:
        yield (*path, key)
        yield from places(value, (*path, key))


def with_junk(document: dict, path: tuple, junk) -> dict:
    changed = deepcopy(document)
    part = changed
    for key in path[:-1]:
        part = part[key]
    part[path[-1]] = junk
    return changed


class RolledBack(Exception):
    """Ends each try without leaving a row for the next."""


def tried(document: dict) -> list[tuple]:
    """Places and what is put there."""
    return [
        (path, JUNK[(number * AT_EACH_PLACE + turn) % len(JUNK)])
        for number, path in enumerate(places(document)) for turn in range(AT_EACH_PLACE)
    ]  # fmt: skip


def outcome(act) -> str:
    """What came of an act that leaves no row behind: kept, refused, or the fault."""
    try:
        with transaction.atomic():
            act()
            raise RolledBack
    except RolledBack:
        return "kept"
    except ApiProblem:
        return "refused"
    except Exception as fault:  # every place is named at once, not only the first
        return repr(fault)


@pytest.mark.slow
def test_junk_in_any_place_of_a_delivery_is_a_record_or_a_refusal(cast):
    line = a_line(cast.version, a_carton(1), counted=1)
    line["cartons"][0]["label"]["net"] = reading(10, "kg")
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, line))
    # The phone's own judgement is only compared, and long: one place of it stands for all.
    document["lines"][0]["suggested"] = {"suggestion": "accept"}
    found = {}
    # The head takes every kind of junk: it is what rows are filed by.
    head = [((name,), junk) for name in document for junk in JUNK]
    for path, junk in [*tried(document), *head]:
        changed = with_junk(document, path, junk)
        found[(path, repr(junk)[:12])] = outcome(
            lambda changed=changed: sign_delivery(
                document=changed, person=cast.receiver
            )
        )
    assert {where: what for where, what in found.items() if what not in ("kept", "refused")} == {}
    assert {"kept", "refused"} == set(found.values())
    assert not Delivery.objects.exists()


def test_junk_in_any_place_of_a_put_away_is_a_record_or_a_refusal(cast):
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, a_line(cast.version)))
    delivery = sign_delivery(document=document, person=cast.receiver)
    addendum = a_put_away(document)
    found = {}
    for path in list(places(addendum)):
        for junk in JUNK:
            changed = with_junk(addendum, path, junk)
            found[(path, repr(junk)[:12])] = outcome(
                lambda changed=changed: add_addendum(delivery=delivery, addendum=changed, person=cast.receiver)
            )
    assert {where: what for where, what in found.items() if what not in ("kept", "refused")} == {}
    assert {"kept", "refused"} == set(found.values())
