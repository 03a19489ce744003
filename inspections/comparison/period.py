"""From which day to which: whole days as the site's own clock counts them."""
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Q

from inspections.errors import Unprocessable
from inspections.people.models import Site

#: Months shown when nobody asks for other ones, the present month among them.
USUAL_MONTHS = 12


@dataclass(frozen=True)
class Period:
    """Whole days, both ends in; ``first <= last``."""

    first: date
    last: date

    @classmethod
    def read(cls, first: str, last: str, *, today: date) -> "Period":
        """The period asked for; an empty end is filled with the last twelve months up to today.

        Raises
        ------
        Unprocessable
            PERIOD-DATE: an entry is no ISO 8601 day. PERIOD-ORDER: it ends before it begins.
        """
        end = _day(last) if last else today
        begin = _day(first) if first else _months_before(end, USUAL_MONTHS - 1)
        if end < begin:
            raise Unprocessable("PERIOD-ORDER", first=begin.isoformat(), last=end.isoformat())
        return cls(begin, end)

    def about(self, field: str) -> Q:
        """A condition on a moment that holds on these days by any clock on earth, and for some hours around them."""
        begin, end = (datetime.combine(day, time.min, UTC) for day in (self.first, self.last + timedelta(days=1)))
        return Q(**{f"{field}__gte": begin - timedelta(hours=14), f"{field}__lt": end + timedelta(hours=12)})

    def covers(self, sites: list[Site], field: str) -> Q:
        """A condition on a delivery's arrival, each site by its own clock.

        Parameters
        ----------
        sites : list of Site
            Where; an empty list covers nothing.
        field : str
            Path to the delivery from the asked model: ``""`` or like ``"line__delivery__"``.
        """
        anywhere = Q(pk__in=[])
        for site in sites:
            clock = ZoneInfo(site.timezone)
            begin = datetime.combine(self.first, time.min, clock)
            end = datetime.combine(self.last + timedelta(days=1), time.min, clock)
            anywhere |= Q(**{
                f"{field}site_id": site.id, f"{field}arrived_at__gte": begin, f"{field}arrived_at__lt": end,
            })
        return anywhere


def _day(entry: str) -> date:
    try:
        # fromisoformat also takes 20260331 and week dates; one way of writing is enough.
        return datetime.strptime(entry, "%Y-%m-%d").date()
    except ValueError:
        raise Unprocessable("PERIOD-DATE", entry=entry[:40]) from None


def _months_before(day: date, months: int) -> date:
    """First day of the month that lies so many months before the day's own."""
    whole = day.year * 12 + day.month - 1 - months
    return date(max(whole // 12, 1), whole % 12 + 1, 1)
