"""The comparison for the desk: whoever answers for a site, its sites and no other."""
from uuid import UUID

from django.db.models import QuerySet
from django.utils import timezone
from rest_framework.decorators import api_view
from rest_framework.request import Request
from rest_framework.response import Response

from inspections.comparison.advice_worth import advice_worth
from inspections.comparison.advised import advised
from inspections.comparison.kept import kept
from inspections.comparison.learnt import learnt
from inspections.comparison.measures import BY, asked_for, measures
from inspections.comparison.period import Period
from inspections.comparison.rates import comparison, parts_of
from inspections.comparison.selectors import counted
from inspections.errors import CannotUse, NotFound
from inspections.people.access import need_role, need_site, sites_for
from inspections.people.models import Role, Site


@api_view(["GET"])
def compare(request: Request) -> Response:
    """Suppliers of one site or of all that the person may see, over a period of whole days."""
    sites, period = _asked(request)
    return Response(kept(lambda: comparison(counted(sites, period), period), ("comparison", period), sites))


@api_view(["GET"])
def supplier_parts(request: Request, supplier_id: UUID) -> Response:
    """What one supplier's rate is made of."""
    sites, period = _asked(request)
    asked = ("supplier", supplier_id, period)
    return Response(kept(lambda: parts_of(counted(sites, period), supplier_id), asked, sites))


@api_view(["GET"])
def measure(request: Request) -> Response:
    """Measures by supplier, site, specification, species or month; of one of them where the address names it."""
    sites, period = _asked(request)
    by = request.query_params.get("by") or "supplier"
    if by not in BY:
        raise CannotUse("MEASURES-BY", entry=by[:40], known=", ".join(BY))
    try:
        only = asked_for(request.query_params)
    except ValueError:
        raise NotFound() from None
    asked = ("measures", by, tuple(only.items()), period)
    return Response(kept(lambda: measures(sites, period, by, only), asked, sites))


@api_view(["GET"])
def agree(request: Request) -> Response:
    """What the photo advice said against what receivers found, and the cut-offs that it goes by."""
    sites, period = _asked(request)
    found = advised(sites, period)
    return Response({**advice_worth(found, period), "learnt": learnt(found.sites)})


def _asked(request: Request) -> tuple[QuerySet[Site], Period]:
    need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
    asked = request.query_params
    period = Period.read(asked.get("from", ""), asked.get("to", ""), today=timezone.localdate())
    sites = sites_for(request.user)
    if asked.get("site"):
        sites = sites.filter(pk=need_site(request.user, asked["site"]).pk)
    return sites, period
