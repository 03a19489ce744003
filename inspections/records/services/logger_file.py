"""A data logger's file comes in for a delivery: read, reckoned and kept as it is."""
import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from django.db import transaction

from inspections.errors import ApiProblem, Unprocessable
from inspections.people.access import need_site
from inspections.people.models import Person
from inspections.records import storage
from inspections.records.models import Delivery, LoggerFile
from inspections.trade.journey import METHOD, Goods, Journey, life_product, log_limits, need_clock
from inspections.trade.logger_reading import reading_of
from inspections.trade.logger_times import DAY_ORDERS
from inspections.trade.loggers import LoggerFile as Log
from inspections.trade.loggers import read_logger_bytes
from inspections.trade.quantities import UnusableReading

LARGEST = 5 * 1024 * 1024
NAME_LENGTH = 120
#: What has to be told when a file can be read more than one way: code of the question -> name of the answer.
QUESTIONS = {"LOG-04": "unit", "LOG-07": "zone", "LOG-08": "day_order", "LOG-10": "column"}
_BY_HOURS = re.compile(r"([+-])([01][0-9]):([0-5][0-9])\Z")
#: Offsets that clocks are set to; those with minutes are India, Nepal and the middle of Australia among others.
_OFFSETS = [*range(-12 * 60, 14 * 60 + 1, 60), -210, -150, 210, 270, 330, 345, 390, 570, 630, 765]


@dataclass(frozen=True)
class Read:
    """A file that was read: what had to be told for it, and the result as JSON."""

    content: bytes
    sha256: str
    answers: dict[str, str]
    reading: dict


def read_logger_file(*, delivery: Delivery, content: bytes, told: Mapping[str, str]) -> Read:
    """Read a logger file against a delivery; writes nothing.

    Parameters
    ----------
    delivery : Delivery
        Gives arrival, site clock, limits and goods.
    content : bytes
        The file as uploaded, at most 5 MB.
    told : mapping of str to str
        Answers, each only used where the file needs it: ``zone`` (a name such as Australia/Sydney, UTC, or
        +11:00), ``unit`` (C, F), ``day_order`` (day_first, month_first), ``column``; and ``left_at``, when the
        goods left (ISO; without a zone by the site's clock).

    Raises
    ------
    Unprocessable
        LOG-…: the file cannot be read, or needs an answer; then ``ask`` beside the sentence names it and its
        choices. LOGGER-ANSWER, LOGGER-LEFT: an answer cannot be used.
    ApiProblem
        413 TOO-LARGE.
    """
    if len(content) > LARGEST:
        raise ApiProblem("TOO-LARGE", status=413, most_mb=LARGEST // 1048576)
    zone = ZoneInfo(delivery.site.timezone)
    left = _left(told.get("left_at") or "", delivery, zone)
    try:
        log, answers = _log(content, {name: value for name, value in told.items() if value}, zone)
    except UnusableReading as refused:
        raise _refusal(refused, delivery) from refused
    journey = Journey(delivery.arrived_at.timestamp(), left.timestamp() if left else None)
    if left:
        answers["left_at"] = left.astimezone(UTC).isoformat()
    limits = log_limits(delivery.limit_set.to_json()["limits"])
    reading = reading_of(log, journey, limits, _goods(delivery), zone)
    return Read(content, hashlib.sha256(content).hexdigest(), answers, reading)


def keep_logger_file(
    *, delivery: Delivery, name: str, read: Read, person: Person, at: datetime | None = None
) -> tuple[LoggerFile, bool]:
    """Keep a file that was read, and say whether it is new.

    Parameters
    ----------
    name : str
        What the file was called; only its last part is kept.
    at : datetime, optional
        Now, unless the demo says otherwise.

    Raises
    ------
    Forbidden
        The site is not the person's.

    Notes
    -----
    The bytes are on disk and flushed before the row is written. The same file with the same answers writes
    nothing and gives the row that is there.
    """
    need_site(person, delivery.site_id)
    key = answers_key(read.answers)
    stored = storage.logger_file_name(read.sha256)
    known = LoggerFile.objects.filter(delivery=delivery, sha256=read.sha256, answers_key=key).first()
    if known is not None:
        return known, False
    storage.put(stored, read.content)
    row = LoggerFile(
        delivery=delivery, sha256=read.sha256, bytes=len(read.content), file_name=_plain_name(name),
        stored_name=stored, person=person, zone_assumed=read.answers.get("zone", ""), answers=read.answers,
        answers_key=key, method_version=METHOD, reading=read.reading, **({"at": at} if at else {}),
    )
    with transaction.atomic():
        row.full_clean()
        row.save(force_insert=True)
    return row, True


def choices_for(question: str, delivery: Delivery, facts: Mapping) -> list[dict[str, str]]:
    """The answers to a question, the likeliest first: ``value`` to send and ``text`` to show."""
    site = delivery.site.timezone
    if question == "zone":
        shifts = [{"value": _spelled(by), "text": f"UTC{_spelled(by)}"} for by in sorted(_OFFSETS) if by]
        return [{"value": site, "text": f"{site} (this site)"}, {"value": "UTC", "text": "UTC"},
                *shifts]  # fmt: skip
    if question == "day_order":
        return [{"value": "day_first", "text": "The day comes first"},
                {"value": "month_first", "text": "The month comes first"}]  # fmt: skip
    if question == "column":
        return [{"value": name, "text": name} for name in facts["columns"]]
    return [{"value": "C", "text": "°C"}, {"value": "F", "text": "°F"}]


def _log(content: bytes, told: dict[str, str], zone: ZoneInfo) -> tuple[Log, dict[str, str]]:
    """The file on a clock with a zone, and those answers that it needed."""
    used: dict[str, str] = {}
    while True:
        try:
            log = read_logger_bytes(content, **used)
            break
        except UnusableReading as refused:
            name = QUESTIONS.get(refused.code, "")
            if name not in told or name in used:
                raise
            used[name] = _need_choice(name, told[name])
    if log.has_zone:
        return log, used
    minutes = _minutes(told["zone"], log) if "zone" in told else None
    log = need_clock(log, minutes)
    return log, {**used, "zone": told["zone"]}


def _need_choice(name: str, value: str) -> str:
    known = {"unit": ("C", "F"), "day_order": DAY_ORDERS}.get(name)
    if known is not None and value not in known:
        raise Unprocessable("LOGGER-ANSWER", value=value[:60])
    return value


def _minutes(zone: str, log: Log) -> int:
    """Minutes east of UTC of the logger's clock, which keeps the offset that it had at its first reading."""
    match = _BY_HOURS.match(zone)
    if match is not None:
        by = int(match[2]) * 60 + int(match[3])
        if by <= 14 * 60:
            return -by if match[1] == "-" else by
        raise Unprocessable("LOGGER-ANSWER", value=zone)
    try:
        named = ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError) as odd:
        raise Unprocessable("LOGGER-ANSWER", value=zone[:60]) from odd
    first = datetime(1970, 1, 1) + timedelta(seconds=log.readings[0].at_s)
    return int((first.replace(tzinfo=named).utcoffset() or timedelta()) / timedelta(minutes=1))


def _left(text: str, delivery: Delivery, zone: ZoneInfo) -> datetime | None:
    if not text:
        return None
    try:
        at = datetime.fromisoformat(text)
    except ValueError as odd:
        raise Unprocessable("LOGGER-ANSWER", value=text[:60]) from odd
    at = at if at.tzinfo else at.replace(tzinfo=zone)
    if at.year < delivery.arrived_at.year - 1 or at >= delivery.arrived_at:
        raise Unprocessable("LOGGER-LEFT")
    return at


def _goods(delivery: Delivery) -> list[Goods]:
    """What was delivered, in the order of the docket."""
    lines = delivery.lines.select_related("specification_version__specification").order_by("number")
    versions = [line.specification_version for line in lines]
    return [
        Goods(life_product(one.data.get("presentation", "")), one.specification.name, one.data.get("state") == "cooked")
        for one in versions
    ]


def _refusal(refused: UnusableReading, delivery: Delivery) -> Unprocessable:
    question = QUESTIONS.get(refused.code)
    extra = {}
    if question:
        extra["ask"] = {"name": question, "choices": choices_for(question, delivery, refused.facts)}
    return Unprocessable(refused.code, extra=extra, **refused.facts)


def answers_key(answers: Mapping[str, str]) -> str:
    """By what the same answers are known again."""
    return hashlib.sha256(json.dumps(answers, sort_keys=True).encode()).hexdigest()


def _plain_name(name: str) -> str:
    last = re.split(r"[/\\]", name)[-1]
    kept = "".join(sign for sign in last if sign.isprintable()).strip()
    return kept[-NAME_LENGTH:] or "logger file"


def _spelled(minutes: int) -> str:
    hours, rest = divmod(abs(minutes), 60)
    return f"{'-' if minutes < 0 else '+'}{hours:02}:{rest:02}"
