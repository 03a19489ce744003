"""What is due next in a claim, and how long is that?"""
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from inspections.claims import standing as stands
from inspections.claims.models import Claim
from inspections.messages import message


@dataclass(frozen=True)
class Deadline:
    """What has to be done, by whom, until when."""

    at: datetime
    what: str


def deadline_of(claim: Claim) -> Deadline | None:
    """The end of the notice period while it is drafted, of the time to answer once it is sent; then none."""
    if claim.state == stands.DRAFTED:
        return Deadline(claim.notice_until, message("claims-due-send"))
    if claim.state == stands.SENT and claim.answer_until:
        return Deadline(claim.answer_until, message("claims-due-answer"))
    return None


def time_left(at: datetime, now: datetime) -> str:
    """The time to a moment, in the two largest units that matter.

    >>> now = datetime(2026, 11, 29, 12)
    >>> time_left(now + timedelta(hours=26, minutes=5), now), time_left(now - timedelta(minutes=90), now)
    ('1 day 2 h left', '1 h 30 min over')
    """
    minutes = int(abs((at - now).total_seconds()) // 60)
    days, hours, rest = minutes // 1440, minutes // 60 % 24, minutes % 60
    parts = [message("claims-time-days", count=days)] if days else []
    parts += [message("claims-time-hours", count=hours)] if hours else []
    parts += [message("claims-time-minutes", count=rest)] if not days and (rest or not hours) else []
    time = " ".join(parts)
    return message("claims-time-left", time=time) if at >= now else message("claims-time-over", time=time)


def site_moment(at: datetime, zone: str) -> str:
    """A moment on the site's clock: ``25 November 2026, 06:10``."""
    local = at.astimezone(ZoneInfo(zone))
    return f"{local.day} {local:%B %Y, %H:%M}"


def age_days(claim: Claim, now: datetime) -> int:
    """Whole days since the goods arrived, up to today or to when it was closed."""
    return ((claim.closed_at or now) - claim.delivery.arrived_at) // timedelta(days=1)
