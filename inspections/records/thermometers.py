"""The thermometers of some sites with their checks in ice, as phone and desk read them."""
from datetime import datetime
from zoneinfo import ZoneInfo

from django.db.models import Prefetch, QuerySet
from django.utils import timezone

from inspections.people.models import Site
from inspections.records.models import IcePointCheck, LimitSet, Thermometer
from inspections.trade.thermometer import ice_point_allowed_c

#: So many of a thermometer's newest checks are told.
TOLD = 5


def allowed_in_ice_c() -> float:
    """How far from 0 °C a check in ice may read now, °C, by the limits in use."""
    current = LimitSet.objects.filter(is_current=True).values_list("data", flat=True).first() or {}
    own = (one.get("bound") for one in current.get("limits") or [] if one.get("code") == "thermometer.ice_point")
    return ice_point_allowed_c(next(own, None))


def thermometers_at(sites: QuerySet[Site] | list[Site], *, site_id=None) -> QuerySet[Thermometer]:
    """Thermometers of those sites with their newest checks, two queries."""
    found = Thermometer.objects.filter(site__in=sites).select_related("site")
    if site_id:
        found = found.filter(site_id=site_id)
    return with_newest_checks(found)


def with_newest_checks(found: QuerySet[Thermometer]) -> QuerySet[Thermometer]:
    """The same, each with its newest checks as ``newest_checks``, newest first; one query more."""
    newest = IcePointCheck.objects.select_related("person")[:TOLD]
    return found.prefetch_related(Prefetch("ice_point_checks", queryset=newest, to_attr="newest_checks"))


def thermometer_json(row: Thermometer) -> dict:
    """A thermometer with its last check, as the phone takes it along; days and moments as they are."""
    last = row.last_check
    return {"id": row.pk, "site_id": row.site_id, "name": row.name, "accuracy_c": row.accuracy_c,
            "last_checked_on": last.on, "last_check_c": last.reading_c, "check_due_on": last.due_on,
            "last_checked_at": last.at, "in_use": row.in_use}


def thermometer_list_json(row: Thermometer, now: datetime | None = None) -> dict:
    """The same for the desk: with its site, today at that site, and its newest checks, newest first."""
    today = (now or timezone.now()).astimezone(ZoneInfo(row.site.timezone)).date()
    return {**thermometer_json(row), "site": {"id": row.site_id, "name": row.site.name}, "today": today,
            "checks": [check_json(check) for check in row.newest_checks]}


def check_json(check: IcePointCheck) -> dict:
    """One filed check."""
    return {"id": str(check.pk), "thermometer_id": str(check.thermometer_id), "at": check.at.isoformat(),
            "day": check.day.isoformat(), "reading": {"entered": check.entered, "unit": check.unit},
            "reading_c": check.reading_c, "allowed_c": check.allowed_c, "passed": check.passed,
            "due_on": check.due_on.isoformat(), "done_by": check.done_by, "sent_by": check.person.name}
