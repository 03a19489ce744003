"""A logger file is added to a signed delivery, and sealed on its own."""
from collections.abc import Mapping
from datetime import datetime

from django.db import IntegrityError, transaction

from inspections.errors import Unprocessable
from inspections.evidence.canonical import sha256_hex
from inspections.evidence.contents import logger_content
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import seal
from inspections.people.access import need_site
from inspections.people.models import Person
from inspections.records.models import Delivery, LoggerFile
from inspections.records.services.logger_file import Read, keep_logger_file, read_logger_file


def add_logger_file(
    *, delivery: Delivery, name: str, content: bytes, told: Mapping[str, str], person: Person,
    at: datetime | None = None,
) -> tuple[LoggerFile, bool]:
    """Read, keep and seal a logger file; whether it is new.

    Parameters
    ----------
    told : mapping of str to str
        Answers, see ``records.services.logger_file.read_logger_file``.
    at : datetime, optional
        Now, unless the demo says otherwise.

    Raises
    ------
    Unprocessable
        As ``read_logger_file``; LOGGER-NO-SEAL.
    Forbidden
        The site is not the person's.
    ApiProblem
        413 TOO-LARGE.

    Notes
    -----
    The file is read before, outside of any lock. Then one transaction: row and seal. The delivery's own seal is
    not touched. The same file with the same answers gives the row that is there; so does the same file without
    any answer, once it was read.
    """
    need_site(person, delivery.site_id)
    read = _read(delivery, content, told)
    if isinstance(read, LoggerFile):
        return read, False
    try:
        with transaction.atomic():
            return _keep(delivery, name, read, person, at)
    except IntegrityError:
        # The loser of two parallel twins meets the winner's row.
        with transaction.atomic():
            return _keep(delivery, name, read, person, at)


def _read(delivery: Delivery, content: bytes, told: Mapping[str, str]) -> Read | LoggerFile:
    try:
        return read_logger_file(delivery=delivery, content=content, told=told)
    except Unprocessable as refused:
        known = _last_reading(delivery, content) if "ask" in refused.extra and not any(told.values()) else None
        if known is None:
            raise
        return known


def _last_reading(delivery: Delivery, content: bytes) -> LoggerFile | None:
    return LoggerFile.objects.filter(delivery=delivery, sha256=sha256_hex(content)).last()


def _keep(delivery: Delivery, name: str, read: Read, person: Person, at: datetime | None) -> tuple[LoggerFile, bool]:
    Delivery.objects.select_for_update(of=("self",)).get(pk=delivery.pk)
    main = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=delivery.pk).first()
    if main is None:
        raise Unprocessable("LOGGER-NO-SEAL")
    row, is_new = keep_logger_file(delivery=delivery, name=name, read=read, person=person, at=at)
    if is_new:
        content = logger_content(row, delivery_seal_sha256=main.sha256)
        sealed_at = row.at if delivery.is_demo else None
        seal(site=delivery.site, kind=SealKind.LOGGER, subject_id=row.pk, content=content, sealed_at=sealed_at)
    return row, is_new
