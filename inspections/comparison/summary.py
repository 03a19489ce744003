"""A month in one page: what came, what it cost, who stands apart, in sentences that screen, PDF and mail share.

The month's own figures are counted; whether a supplier differs from the others, or has changed, is told from the twelve
months that end with it, since one month is too little to say.
"""
from datetime import date, timedelta
from typing import Any

from django.db.models import QuerySet

from inspections.comparison.measures import measures
from inspections.comparison.period import USUAL_MONTHS, Period
from inspections.comparison.rates import comparison
from inspections.comparison.selectors import counted
from inspections.errors import Unprocessable
from inspections.messages import message
from inspections.people.models import Site

HEAD = ("supplier", "delivered", "refused", "defective", "claims", "cost")


def month_asked(entry: str, *, today: date) -> Period:
    """The month of ``2026-05``; the last whole one where nothing is asked.

    Raises
    ------
    Unprocessable
        SUMMARY-MONTH: no such month.
    """
    try:
        before = (today.replace(day=1) - timedelta(days=1)).replace(day=1)
        first = date.fromisoformat(f"{entry}-01") if entry else before
    except ValueError:
        raise Unprocessable("SUMMARY-MONTH", entry=entry[:40]) from None
    return Period(first, (first + timedelta(days=31)).replace(day=1) - timedelta(days=1))


def summary(sites: QuerySet[Site], month: Period) -> dict[str, Any]:
    """The summary of a month.

    Parameters
    ----------
    sites : QuerySet of Site
        Those that the person may see (or one of them).
    month : Period
        A whole month.

    Returns
    -------
    dict
        ``month``, ``title``; ``sentences`` on the month and on suppliers that stand apart; ``head`` and ``rows`` of a
        table, all text; ``note``.
    """
    year = Period.read("", month.last.isoformat(), today=month.last)
    told, compared = measures(sites, month, "supplier", {}), comparison(counted(sites, year), year)
    names = list(sites.values_list("name", flat=True)[:2])
    where = names[0] if len(names) == 1 else message("pages-summary-sites", count=sites.count())
    rows = [_row(each["name"], each) for each in told["rows"]]
    return {
        "month": month.first.strftime("%Y-%m"),
        "title": message("pages-summary-title", month=f"{month.first:%B %Y}", where=where),
        "sentences": [_counted(told["all"]), *_standing_apart(compared)],
        "head": [message(f"pages-summary-{name}") for name in HEAD],
        "rows": rows + ([_row(message("pages-summary-all"), told["all"])] if len(rows) > 1 else []),
        "note": message("pages-summary-note", months=USUAL_MONTHS, last=_day(month.last)),
    }


def _counted(row: dict[str, Any]) -> str:
    counts = row["counts"]
    if not counts["deliveries"]:
        return message("pages-summary-nothing")
    return message("pages-summary-counted", **{name: counts[name] for name in (
        "deliveries", "delivered", "refused", "opened", "defective")})


def _standing_apart(compared: dict[str, Any]) -> list[str]:
    said = []
    for row in compared["rows"]:
        name, luck, shift = row["supplier"]["name"], row["luck"], row["over_time"]["shift"]
        if luck and luck["says"] != "within":
            own = row["comparable"]["own"]
            said.append(message(
                f"pages-summary-{luck['says']}", supplier=name, found=own["defective"], opened=own["cartons_opened"],
                expected=f"{row['expected']:.1f}", one_in=f"{luck['one_in'] or 2:,}"))
        if shift:
            said.append(message(
                "pages-summary-shift", supplier=name, since=_day(date.fromisoformat(shift["from"])),
                before=_of(shift["before"]), after=_of(shift["since"])))
        if run := row["refused_run"]:
            said.append(message("pages-summary-run", supplier=name, deliveries=run["deliveries"]))
    return said or [message("pages-summary-alike")]


def _row(name: str, row: dict[str, Any]) -> list[str]:
    counts, cost = row["counts"], row["cost"]
    money = f"{cost['sound']:.2f} {cost['currency']}" if cost and cost["sound"] is not None else "–"
    return [name, f"{counts['delivered']:,}", f"{counts['refused']:,}",
            message("pages-summary-of", part=f"{counts['defective']:,}", whole=f"{counts['opened']:,}"),
            f"{counts['claims']:,}", money]


def _of(count: dict[str, int]) -> str:
    return message("pages-summary-of", part=f"{count['defective']:,}", whole=f"{count['opened']:,}")


def _day(day: date) -> str:
    return f"{day.day} {day:%B %Y}"
