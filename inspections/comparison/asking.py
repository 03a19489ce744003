"""What a request for the comparison asks: which sites, of those that the person answers for, and which days."""
from typing import cast

from django.db.models import QuerySet
from django.utils import timezone
from rest_framework.request import Request

from inspections.comparison.answers import PeriodQuery
from inspections.comparison.period import Period
from inspections.people.access import need_role, need_site, sites_for
from inspections.people.models import Person, Role, Site
from inspections.strict import read_query


def asked_sites_and_period(request: Request) -> tuple[QuerySet[Site], Period]:
    """The sites of ``site`` (or all that the person may see) and the period of ``from`` and ``to``.

    Raises
    ------
    Forbidden, Unprocessable
        Somebody without the role or the site; days that cannot be read.
    """
    # nobody signed in comes past the role
    need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
    person, asked = cast(Person, request.user), read_query(PeriodQuery, request.query_params)
    period = Period.read(asked.first, asked.last, today=timezone.localdate())
    sites = sites_for(person)
    if asked.site:
        sites = sites.filter(pk=need_site(person, asked.site).pk)
    return sites, period
