"""A thermometer was held in crushed ice, and what it read is filed."""
from datetime import datetime, timedelta
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from inspections.errors import Conflict, Unprocessable
from inspections.people.models import Person
from inspections.records.models import IcePointCheck, Thermometer
from inspections.records.services.signable import unusable_sentence, with_offset
from inspections.records.shape.later import IceCheck
from inspections.records.shape.parts import Reading
from inspections.records.thermometers import allowed_in_ice_c
from inspections.trade.quantities import UnusableReading, to_celsius
from inspections.trade.thermometer import NUMBERS, judge_ice_point

LONGEST_ENTRY = 20
#: A phone's clock may be a day off, its memory some years old; what lies outside is a wrong clock.
AHEAD, BACK = timedelta(days=1), timedelta(days=10 * 366)


def file_ice_point(*, thermometer: Thermometer, check: IceCheck, person: Person) -> IcePointCheck:
    """File an ice-point check.

    Parameters
    ----------
    thermometer : Thermometer
        The person may see its site (the caller has asked).
    check : IceCheck
        As ``shape.door.read_ice_check`` gives it.
    person : Person
        Who sends it.

    Returns
    -------
    IcePointCheck
        Passed within the documented limit of 0 °C, or within that of the limits in use where it is stricter, end
        point in (CV-5-56); due the documented number of days after the check (CV-5-60; both common practice, no
        source). The row keeps the limit, so that a later one does not change what was found.

    Raises
    ------
    Unprocessable
        CHECK-SHAPE, CHECK-READING, CHECK-TIME.
    Conflict
        CHECK-OTHER: another check has this id.

    Notes
    -----
    One transaction, one row. The same check again writes nothing and gives the row that is there, whoever
    sends it. The thermometer itself is not touched: its last check is read off the rows.
    """
    row = _row(thermometer, check, person)
    for _ in range(2):
        # The loser of two parallel twins meets the winner's row on its second round.
        known = IcePointCheck.objects.filter(pk=row.pk).first()
        if known is not None:
            return _same(known, row)
        try:
            with transaction.atomic():
                row.save(force_insert=True)
                return row
        except IntegrityError:
            continue
    raise Conflict("CHECK-OTHER")


def _row(thermometer: Thermometer, check: IceCheck, person: Person) -> IcePointCheck:
    if check.thermometer_id != str(thermometer.pk):
        raise Unprocessable("CHECK-SHAPE", what="thermometer")
    at, name = with_offset(check.at), check.person.name.strip()
    if at is None:
        raise Unprocessable("CHECK-SHAPE", what="at: no moment with its offset from UTC")
    if not name:
        raise Unprocessable("CHECK-SHAPE", what="person, name: empty")
    _need_time(at)
    celsius = _celsius(check.reading)
    allowed, days = allowed_in_ice_c(), int(NUMBERS["ice_point_due_days"])
    return IcePointCheck(
        id=UUID(check.id), thermometer=thermometer, at=at, day=at.date(), entered=check.reading.entered,
        unit=check.reading.unit, reading_c=celsius, allowed_c=allowed,
        passed=judge_ice_point(celsius, allowed).kind == "within", due_on=at.date() + timedelta(days=days),
        done_by=name, person=person, device_id=UUID(check.device_id),
    )


def _need_time(at: datetime) -> None:
    now = timezone.now()
    if not now - BACK < at < now + AHEAD:
        raise Unprocessable("CHECK-TIME", day=at.date().isoformat())


def _celsius(reading: Reading) -> float:
    try:
        celsius = to_celsius({"entered": reading.entered, "unit": reading.unit})
    except UnusableReading as trouble:
        why = unusable_sentence({"code": trouble.code, "facts": trouble.facts})
        raise Unprocessable("CHECK-READING", why=why) from trouble
    if len(reading.entered) > LONGEST_ENTRY:
        raise Unprocessable("CHECK-SHAPE", what="reading")
    return celsius


def _same(known: IcePointCheck, row: IcePointCheck) -> IcePointCheck:
    """The row that is there, if it says the same."""
    for name in ("thermometer_id", "at", "day", "entered", "unit", "done_by", "device_id"):
        if getattr(known, name) != getattr(row, name):
            raise Conflict("CHECK-OTHER")
    return known
