"""The device protocol as a machine: whatever phones send in whatever order, a small model says what must be answered.

The model is ``inspections/sync/docs/protocol.md`` in a few dictionaries: it knows nothing of rows or files. Two people
of one site send documents on a few dockets, photos in pieces, signatures and addenda; anything may come twice, late,
or on a revision that is not the current one.
"""
import copy
import json
from uuid import uuid4

import pytest
from django.db import transaction
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from inspections.evidence.checking import verify_chain
from inspections.evidence.models import Seal
from inspections.records.models import Delivery, Photo, PhotoUse
from inspections.sync.models import Document, DocumentRevision
from tests.inspections.receiving import (
    OTHER_DEVICE,
    Phone,
    decide,
    document,
    make_kitchen,
    photo_entry,
    picture,
    put_away,
)
from tests.inspections.receiving import sha256_of as hash_of

PHOTOS = [picture(colour) for colour in ("coral", "teal", "gold")]
DOCKETS = ["DN-1", "dn 1", "DN-2"]
people = st.sampled_from(["mia", "tom"])
photo_numbers = st.integers(0, len(PHOTOS) - 1)


def same(body: dict) -> str:
    """A body as the model compares it."""
    return json.dumps(body, sort_keys=True)


def docket_of(body: dict) -> str:
    return body["docket_number"].lower().replace("-", "").replace(" ", "")


class Kept:
    """What the model knows of one document."""

    def __init__(self, body: dict):
        self.body, self.revision, self.is_signed, self.seal = body, 0, False, ""
        #: base and body to the revision that they became
        self.answered: dict[tuple[int, str], int] = {}

    def become(self, body: dict, base: int) -> int:
        self.revision += 1
        self.body = body
        self.answered[base, same(body)] = self.revision
        return self.revision


class Protocol(RuleBasedStateMachine):
    """Rules send and compare; the invariants look into the database."""

    @initialize()
    def begin(self):
        self.undo = transaction.atomic()
        self.undo.__enter__()
        self.kitchen = make_kitchen()
        self.phones = {"mia": Phone(self.kitchen.receiver), "tom": Phone(self.kitchen.other_receiver)}
        #: every document ever sent, taken or not; those that the server has
        self.drafts: list[dict] = []
        self.kept: dict[str, Kept] = {}
        #: person and photo to [where, bytes that came, whether it is settled]
        self.uploads: dict[tuple[str, int], list] = {}
        self.stored: set[int] = set()
        self.keys: dict[tuple[str, str], tuple[str, str]] = {}
        self.addenda: dict[str, tuple[dict, str]] = {}

    def teardown(self):
        if hasattr(self, "undo"):
            assert verify_chain(self.kitchen.site) == []
            transaction.set_rollback(True)
            self.undo.__exit__(None, None, None)

    # ---- documents ----------------------------------------------------------------------------------------
    @precondition(lambda self: len(self.drafts) < 4)
    @rule(docket=st.sampled_from(DOCKETS), photos=st.sets(photo_numbers), apart=st.booleans())
    def write_a_delivery(self, docket, photos, apart):
        entries = [photo_entry(PHOTOS[number]) for number in sorted(photos)]
        draft = document(self.kitchen, docket=docket, photos=entries, device=OTHER_DEVICE)
        if apart and self.drafts:
            draft["separate_from"] = self.drafts[0]["id"]
        self.drafts.append(draft)

    @precondition(lambda self: self.drafts)
    @rule(data=st.data(), who=people, note=st.sampled_from(["", "a", "b"]), off=st.sampled_from([0, 0, 0, -1, 1]))
    def save(self, data, who, note, off):
        """A change on the current revision, on an older one, or on one that there is not yet."""
        draft = {**data.draw(st.sampled_from(self.drafts)), "notes": note}
        known = self.kept.get(draft["id"])
        base = max(0, (known.revision if known else 0) + off)
        answer = self.phones[who].put(draft, base)
        self.expect(answer, *self._saved(draft, base))

    def _saved(self, body: dict, base: int) -> tuple[int, object]:
        known = self.kept.get(body["id"])
        if known is None:
            if base:
                return 412, "DOC-NOT-HERE"
            if self._is_taken(body):
                return 409, "DOCKET-OPEN-ELSEWHERE"
            self.kept[body["id"]] = known = Kept(body)
            return 201, known.become(body, 0)
        if (revision := known.answered.get((base, same(body)))) is not None:
            return (201 if revision == 1 else 200), revision
        if same(body) == same(known.body):
            return (201 if known.revision == 1 else 200), known.revision
        if known.is_signed:
            return 409, "DOC-SIGNED"
        if base != known.revision:
            return 412, "DOC-OTHER-REVISION"
        return 200, known.become(body, base)

    def _is_taken(self, body: dict) -> bool:
        others = (one.body for pk, one in self.kept.items() if pk != body["id"])
        return not body["separate_from"] and any(docket_of(one) == docket_of(body) for one in others)

    # ---- photos -------------------------------------------------------------------------------------------
    @rule(who=people, number=photo_numbers)
    def begin_a_photo(self, who, number):
        answer = self.phones[who].begin(PHOTOS[number])
        assert answer.status_code == 201
        upload = self.uploads.setdefault((who, number), [answer["Location"], b"", False])
        assert upload[0] == answer["Location"]
        assert int(answer["Upload-Offset"]) == self._settled(number, upload)

    @precondition(lambda self: self.uploads)
    @rule(data=st.data())
    def ask_how_much_has_come(self, data):
        (who, number), upload = data.draw(st.sampled_from(sorted(self.uploads.items(), key=lambda pair: pair[0])))
        answer = self.phones[who].ask(upload[0])
        assert (answer.status_code, int(answer["Upload-Offset"])) == (200, self._settled(number, upload))

    def _settled(self, number: int, upload: list) -> int:
        """How much the server says it has when it is asked; all of it once anybody of the site has sent it whole."""
        if number in self.stored or upload[1] == PHOTOS[number]:
            self.stored.add(number)
            upload[2] = True
        return len(PHOTOS[number]) if upload[2] else len(upload[1])

    @precondition(lambda self: self.uploads)
    @rule(data=st.data(), off=st.sampled_from([0, 0, 0, 0, 5, -5]), share=st.sampled_from([0.3, 0.7, 1.0, 1.2]))
    def send_a_piece(self, data, off, share):
        (who, number), upload = data.draw(st.sampled_from(sorted(self.uploads.items(), key=lambda pair: pair[0])))
        whole, (at, come, is_settled) = PHOTOS[number], upload
        stands_at = len(whole) if is_settled else len(come)
        offset = max(0, stands_at + off)
        piece = whole[len(come) : int(len(whole) * share)] if share <= 1 else whole[len(come) :] + b"more"
        if not piece:  # the test client sends no content type with an empty body
            return
        answer = self.phones[who].piece(at, piece, offset)
        if offset != stands_at:
            assert (answer.status_code, answer["Upload-Offset"]) == (409, str(stands_at))
        elif is_settled:
            assert (answer.status_code, answer["Upload-Offset"]) == (204, str(len(whole)))
        elif share > 1:
            upload[1] = whole
            assert answer.status_code == 413
        else:
            upload[1] = come + piece
            assert (answer.status_code, answer["Upload-Offset"]) == (204, str(len(upload[1])))
            if upload[1] == whole:
                self._settled(number, upload)

    @precondition(lambda self: any(not upload[2] and len(upload[1]) < len(PHOTOS[number])
                                   for (_, number), upload in self.uploads.items()))
    @rule(data=st.data())
    def send_other_bytes_than_announced(self, data):
        open_ones = [(key, upload) for key, upload in self.uploads.items()
                     if not upload[2] and len(upload[1]) < len(PHOTOS[key[1]])]
        (who, number), (at, come, _) = data.draw(st.sampled_from(sorted(open_ones, key=lambda pair: pair[0])))
        rest = bytes(255 - one for one in PHOTOS[number][len(come):])
        assert self.phones[who].piece(at, rest, len(come)).status_code == 460
        assert self.phones[who].ask(at).status_code == 404
        del self.uploads[who, number]

    @precondition(lambda self: self.uploads)
    @rule(data=st.data())
    def give_a_photo_up(self, data):
        who, number = data.draw(st.sampled_from(sorted(self.uploads)))
        at, _, _ = self.uploads.pop((who, number))
        assert self.phones[who].client.delete(at, headers={"Tus-Resumable": "1.0.0"}).status_code == 204
        assert self.phones[who].ask(at).status_code == 404

    @rule(who=people, number=photo_numbers)
    def ask_whether_a_photo_is_stored(self, who, number):
        answer = self.phones[who].client.head(f"/sync/photos/{hash_of(PHOTOS[number])}")
        assert answer.status_code == (200 if number in self.stored else 404)

    # ---- signing ------------------------------------------------------------------------------------------
    @precondition(lambda self: self.drafts)
    @rule(data=st.data(), who=people, note=st.sampled_from(["", "a"]), key=st.sampled_from(["key-one-1", "key-two-2"]))
    def sign(self, data, who, note, key):
        draft = data.draw(st.sampled_from(self.drafts))
        body = decide({**draft, "notes": note})
        answer = self.phones[who].sign(body, key)
        if (given := self.keys.get((who, key))) is not None:
            if given[0] != same(body):
                return self.expect(answer, 422, "KEY-OTHER-BODY")
            assert (answer.status_code, answer.json()["seal"]["sha256"]) == (200, given[1])
            return None
        status, told = self._signed(body)
        self.expect(answer, status, told)
        if status == 200:
            seal = answer.json()["seal"]["sha256"]
            known = self.kept[body["id"]]
            known.seal = known.seal or seal
            assert seal == known.seal
            self.keys[who, key] = same(body), seal
        return None

    def _signed(self, body: dict) -> tuple[int, object]:
        named = {PHOTOS.index(one) for one in PHOTOS if hash_of(one) in {entry["sha256"] for entry in body["photos"]}}
        if named - self.stored:
            return 409, "PHOTOS-MISSING"
        known = self.kept.get(body["id"])
        if known is not None and known.is_signed:
            return (200, None) if same(known.body) == same(body) else (409, "DOC-SIGNED")
        if known is None and self._is_taken(body):
            return 409, "DOCKET-OPEN-ELSEWHERE"
        known = self.kept.setdefault(body["id"], Kept(body))
        known.become(body, known.revision)
        known.is_signed = True
        return 200, None

    @precondition(lambda self: self.drafts)
    @rule(data=st.data(), who=people)
    def add_a_correction(self, data, who):
        """New, or one from before; to a delivery that is signed, or not yet."""
        draft = data.draw(st.sampled_from(self.drafts))
        made = put_away(self.kitchen, decide(draft), id=str(uuid4()), kind="correction", body={"text": "Lot L2609."})
        added = data.draw(st.sampled_from([made, *(one for one, _ in self.addenda.values())]))
        is_signed = added["delivery_id"] in self.kept and self.kept[added["delivery_id"]].is_signed
        answer = self.phones[who].add(added)
        if not is_signed:
            return self.expect(answer, 404, "NOT-FOUND")
        seal = answer.json()["seal"]["sha256"]
        assert self.addenda.setdefault(added["id"], (added, seal))[1] == seal
        return None

    @precondition(lambda self: self.addenda)
    @rule(data=st.data(), who=people)
    def change_a_correction_that_was_sealed(self, data, who):
        added, _ = self.addenda[data.draw(st.sampled_from(sorted(self.addenda)))]
        changed = copy.deepcopy(added)
        changed["body"]["text"] = "Something else."
        self.expect(self.phones[who].add(changed), 409, "ADDENDUM-OTHER")

    # ---- what must hold -----------------------------------------------------------------------------------
    def expect(self, answer, status: int, told):
        """Status, and the revision of a document that was taken or the code of a refusal."""
        body = answer.json()
        found = body.get("revision") if isinstance(told, int) else body.get("code")
        assert (answer.status_code, found) == (status, told), body

    @invariant()
    def the_server_has_what_it_said_and_nothing_else(self):
        if not hasattr(self, "undo"):
            return
        found = {str(row.pk): (row.revision, same(row.body), row.state) for row in Document.objects.all()}
        assert found == {pk: (one.revision, same(one.body), "signed" if one.is_signed else "open")
                         for pk, one in self.kept.items()}
        assert DocumentRevision.objects.count() == sum(one.revision for one in self.kept.values())
        signed = [one for one in self.kept.values() if one.is_signed]
        assert {str(pk): same(body) for pk, body in Delivery.objects.values_list("pk", "document")} == {
            one.body["id"]: same(one.body) for one in signed}
        assert Seal.objects.count() == len(signed) + len(self.addenda)
        assert set(Photo.objects.values_list("pk", flat=True)) == {hash_of(PHOTOS[number]) for number in self.stored}
        assert PhotoUse.objects.filter(delivery_id__in=[one.body["id"] for one in signed]).count() == sum(
            len(one.body["photos"]) for one in signed)


@pytest.mark.django_db
@pytest.mark.usefixtures("apart")
def test_whatever_phones_send_in_whatever_order_is_answered_as_the_protocol_says():
    run_state_machine_as_test(Protocol, settings=settings(
        max_examples=15, stateful_step_count=25, deadline=None, suppress_health_check=list(HealthCheck)))
