"""A simulated phone: speaks the device protocol until the server has given a receipt for everything.

What ``inspections/sync/docs/protocol.md`` promises is what it expects; an answer that is not among those is a fault
of the server's and is noted. It sends requests twice, late and out of turn, and breaks connections.
"""
import base64
import hashlib
import json
import random
import threading
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field

from inspections.development.made_up_deliveries import a_delivery, a_photo, a_put_away, an_id, photo_entry, signed_off
from inspections.development.wire import TUS, Answer, Asked, NoAnswer, Wire
from inspections.evidence.canonical import canonical_bytes, sha256_hex

PIECE_BYTES = 16 * 1024
LONGEST_WAIT_S = 3.0
MOST_KEPT = 60


class GivenUp(Exception):
    """The time of the run is over."""


@dataclass
class Receipts:
    """What one device was told is kept, for the audit at the end."""

    signed: list[dict] = field(default_factory=list)
    photos: list[str] = field(default_factory=list)


@dataclass
class Tally:
    """What all devices met, added up; ``wrong`` are answers that the protocol does not know."""

    counts: Counter = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def add(self, what: str) -> None:
        with self.lock:
            self.counts[what] += 1

    def note(self, what: str) -> None:
        with self.lock:
            self.wrong.append(what)


class Device:
    """One phone with its receiver.

    Parameters
    ----------
    port, username, password
        Where and as whom it signs in.
    tally : Tally
        Shared by all devices.
    seed : int
    until : float
        ``time.monotonic`` at which it gives up.
    trouble : float
        The share of requests that it cuts, repeats or sends late, 0 to 1.
    """

    def __init__(self, port: int, username: str, password: str, tally: Tally, *, seed: int, until: float,
                 trouble: float = 0.15, kilobytes: int = 40):
        self.wire, self.other_wire = Wire(port), Wire(port)
        self.username, self.password, self.tally = username, password, tally
        self.chance, self.until, self.trouble, self.kilobytes = random.Random(seed), until, trouble, kilobytes
        self.device_id = an_id()
        self.receipts = Receipts()
        self.reference: dict = {}
        #: Requests of the past with what must be said to them again.
        self._past: list[tuple[Asked, Callable[[Answer], bool]]] = []

    def sign_in(self) -> None:
        """Sign in and fetch what the walk needs."""
        self._until({200}, Asked("GET", "/api/session"), may_break=False)
        given = {"username": self.username, "password": self.password, "device_id": self.device_id}
        self._until({200}, _json("POST", "/api/session", given), may_break=False)
        self.reference = self._until({200}, Asked("GET", "/sync/reference"), may_break=False).json()
        self.other_wire.cookies = self.wire.cookies

    def deliver(self, photos: int = 4) -> None:
        """One delivery from the first entry to the put-away, with so many photos."""
        draft = a_delivery(self.reference, device_id=self.device_id, docket=f"{self.username}-{an_id()}")
        path = f"/sync/documents/{draft['id']}"
        revision = self._put(path, draft, 0)
        contents = [a_photo(self.chance, self.kilobytes) for _ in range(photos)]
        draft = {**draft, "photos": [photo_entry(content, draft["lines"][0]["id"]) for content in contents]}
        # photos come before the document that names them, now and then
        early = contents[: self.chance.choice((0, 0, 1, photos))]
        for content in early:
            self._send_photo(content)
        revision = self._put(path, draft, revision)
        final = signed_off(draft, self.reference)
        key = {"Idempotency-Key": an_id()}
        put_away = a_put_away(final, self.reference)
        if self._now_and_then():
            self._out_of_turn(path, final, key, put_away)
        for content in contents[len(early):]:
            self._send_photo(content)
        self._put(path, final, revision)
        seal = self._sign(path, final, key)
        added = self._add(put_away)
        self.receipts.signed.append({
            "id": final["id"], "sha256": sha256_hex(canonical_bytes(final)), "seal": seal, "addendum": put_away["id"],
            "addendum_seal": added, "photos": [entry["sha256"] for entry in final["photos"]]})
        self._repeat_the_past()

    def _put(self, path: str, body: dict, base: int) -> int:
        guard = {"If-Match": f'"{base}"'} if base else {"If-None-Match": "*"}
        asked = _json("PUT", path, body, guard)
        revision = self._until({200, 201}, asked).json()["revision"]
        self._expect(revision == base + 1, asked, f"revision {revision} on {base}")
        self._keep(asked, lambda again: again.json().get("revision") == revision)
        return revision

    def _send_photo(self, content: bytes) -> None:
        sha256 = hashlib.sha256(content).hexdigest()
        told = base64.b64encode(sha256.encode()).decode()
        begin = Asked("POST", "/sync/uploads/", {
            **TUS, "Content-Type": "application/offset+octet-stream", "Upload-Length": str(len(content)),
            "Upload-Metadata": f"sha256 {told},device {base64.b64encode(self.device_id.encode()).decode()}"})
        while True:
            begun = self._until({201}, begin)
            if self._feed(begun.headers["location"], content, int(begun.headers["upload-offset"])):
                break
        head = self._until({200}, Asked("HEAD", f"/sync/photos/{sha256}"))
        self._expect(head.status == 200, begin, "photo not held after its last piece")
        self._keep(begin, lambda again: again.headers.get("upload-offset") == str(len(content)))
        self.receipts.photos.append(sha256)

    def _feed(self, at: str, content: bytes, offset: int) -> bool:
        """Send what is missing, piece by piece; False when the upload is gone and must be begun anew."""
        while offset < len(content):
            piece = content[offset : offset + PIECE_BYTES]
            asked = Asked("PATCH", at, {**TUS, "Content-Type": "application/offset+octet-stream",
                                        "Upload-Offset": str(offset)}, piece)
            try:
                answer = self._once(asked)
            except NoAnswer:
                answer = None
            if answer is not None and answer.status not in {204, 404, 409} and not _is_busy(answer):
                self._wrong(asked, answer)
            if answer is None or answer.status not in {204, 404}:
                answer = self._until({200, 404}, Asked("HEAD", at, TUS), may_break=False)
            if answer.status == 404:
                return False
            offset = int(answer.headers["upload-offset"])
        return True

    def _sign(self, path: str, final: dict, key: dict) -> str:
        asked = _json("POST", f"{path}/signature", {"document": final}, key)
        seal = self._until({200}, asked).json()["seal"]["sha256"]
        self._keep(asked, lambda again: again.json().get("seal", {}).get("sha256") == seal)
        return seal

    def _add(self, addendum: dict) -> str:
        asked = _json("PUT", f"/sync/deliveries/{addendum['delivery_id']}/addenda/{addendum['id']}", addendum)
        seal = self._until({200}, asked).json()["seal"]["sha256"]
        self._keep(asked, lambda again: again.json().get("seal", {}).get("sha256") == seal)
        return seal

    def _out_of_turn(self, path: str, final: dict, key: dict, put_away: dict) -> None:
        """The put-away before the signature, the signature before its photos: both must be told to wait."""
        early = _json("PUT", f"/sync/deliveries/{final['id']}/addenda/{put_away['id']}", put_away)
        for asked, allowed in ((early, {404}), (_json("POST", f"{path}/signature", {"document": final}, key), {409})):
            try:
                answer = self.wire.ask(asked)
            except NoAnswer:
                continue
            self.tally.add("out of turn")
            # all photos may have been early, and then it is signed
            if answer.status < 500 and answer.status not in {*allowed, 200}:
                self._wrong(asked, answer)

    def _repeat_the_past(self) -> None:
        for asked, is_same in self.chance.sample(self._past, min(3, len(self._past))):
            try:
                answer = self.wire.ask(asked)
            except NoAnswer:
                continue
            self.tally.add("late repeat")
            if not (_is_busy(answer) or is_same(answer)):
                self._wrong(asked, answer, "to a late repeat")

    def _until(self, wanted: set[int], asked: Asked, *, may_break: bool = True) -> Answer:
        """Send until the answer has one of the statuses; the wait grows as the phone's does."""
        tries = 0
        while time.monotonic() < self.until:
            try:
                answer = self._once(asked) if may_break else self.wire.ask(asked)
                if answer.status in wanted:
                    return answer
                if not _is_busy(answer):
                    self._wrong(asked, answer)
                self.tally.add(f"asked to wait ({answer.status})")
            except NoAnswer:
                self.tally.add("no answer")
            tries += 1
            time.sleep(min(LONGEST_WAIT_S, 0.1 * 2**tries) * (0.5 + self.chance.random() / 2))
        raise GivenUp(f"{self.username}: {asked.method} {asked.path}")

    def _once(self, asked: Asked) -> Answer:
        """Send once, with what bad wireless does to it: cut off, sent twice, its answer lost."""
        self.tally.add("requests")
        if self._now_and_then():
            share = self.chance.choice((0.0, self.chance.random(), 1.0))
            self.tally.add("cut" if share < 1 else "answer not waited for")
            self.wire.cut(asked, share)
            raise NoAnswer("cut on purpose")
        if self._now_and_then():
            self.tally.add("sent twice at once")
            twin = threading.Thread(target=self._twin, args=(asked,))
            twin.start()
            try:
                return self.wire.ask(asked)
            finally:
                twin.join()
        return self.wire.ask(asked)

    def _twin(self, asked: Asked) -> None:
        try:
            answer = self.other_wire.ask(asked)
            if answer.status >= 500 and not _is_busy(answer):
                self._wrong(asked, answer, "to a twin")
        except NoAnswer:
            pass

    def _now_and_then(self) -> bool:
        return self.chance.random() < self.trouble

    def _keep(self, asked: Asked, is_same: Callable[[Answer], bool]) -> None:
        self._past.append((asked, is_same))
        del self._past[:-MOST_KEPT]

    def _expect(self, holds: bool, asked: Asked, what: str) -> None:
        if not holds:
            self.tally.note(f"{asked.method} {asked.path}: {what}")

    def _wrong(self, asked: Asked, answer: Answer, when: str = "") -> None:
        told = answer.body[:300].decode(errors="replace")
        self.tally.note(f"{asked.method} {asked.path} {when}: {answer.status} {told}")


def _is_busy(answer: Answer) -> bool:
    """Whether the answer only asks to come back, and says when."""
    return answer.status in {409, 503} and "retry-after" in answer.headers


def _json(method: str, path: str, body: dict, headers: dict | None = None) -> Asked:
    return Asked(method, path, {"Content-Type": "application/json", **(headers or {})}, json.dumps(body).encode())
