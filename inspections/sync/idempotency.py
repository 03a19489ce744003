"""Requests that must count once, however often they arrive.

The key and the answer are written in the transaction of the work itself: there is no lock that could
outlive its process, and no answer without its handler. A refusal is not kept, because the same request may
well succeed once what was missing is there.
"""
import re
from collections.abc import Callable

from django.db import OperationalError, transaction

from inspections.errors import ApiProblem, Conflict, Unprocessable
from inspections.evidence.canonical import sha256_hex
from inspections.people.models import Person
from inspections.sync.document import OVERTAKEN
from inspections.sync.models import IdempotencyKey

KEY = re.compile(r"[\x21-\x7e]{8,255}", re.ASCII)


def idempotent(*, person: Person, key: str | None, asked: bytes, prepare: Callable[[], Callable[[], dict]]) -> dict:
    """Run a handler once for a key; give the kept answer to the same request ever after.

    Parameters
    ----------
    person : Person
        Keys of one person mean nothing to another.
    key : str or None
        As the client made it: 8 to 255 printable characters, with or without the quotes of a structured header.
    asked : bytes
        What the handler is asked for, in canonical JSON; its hash is bound to the key.
    prepare : callable
        Makes ready all that needs no transaction. Returns the handler, which runs inside one and returns the answer.
        The work itself must be the same when done twice: of two twins that come at once each may have made one ready.

    Raises
    ------
    ApiProblem
        400 KEY-MISSING; what the handler raises.
    Unprocessable
        422 KEY-OTHER-BODY.
    Conflict
        409 STILL-BUSY: a twin is at it; to be sent again.

    Notes
    -----
    One transaction for handler, key and answer. Of two parallel twins the second is refused its key, and then finds the
    first one's answer.
    """
    named, sha256 = _plain(key), sha256_hex(asked)
    for _ in range(3):
        if (known := _known(person, named, sha256)) is not None:
            return known
        handler = prepare()
        try:
            with transaction.atomic():
                answer = handler()
                IdempotencyKey.objects.create(person=person, key=named, request_sha256=sha256, answer=answer)
                return answer
        except OVERTAKEN:
            continue
    raise Conflict("STILL-BUSY", retry_after_s=2)


def is_busy(trouble: OperationalError) -> bool:
    """Whether the database only asks to come back: somebody else holds what is needed.

    SQLite says so in words, PostgreSQL by SQLSTATE: lock not available, serialisation failure, deadlock.
    """
    state = getattr(trouble.__cause__, "sqlstate", None)
    return state in {"55P03", "40001", "40P01"} or "is locked" in str(trouble)


def _known(person: Person, key: str, asked: str) -> dict | None:
    row = IdempotencyKey.objects.filter(person=person, key=key).first()
    if row is None:
        return None
    if row.request_sha256 != asked:
        raise Unprocessable("KEY-OTHER-BODY")
    return row.answer


def _plain(key: str | None) -> str:
    bare = (key or "").strip().strip('"')
    if not KEY.fullmatch(bare):
        raise ApiProblem("KEY-MISSING", status=400)
    return bare
