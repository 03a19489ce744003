"""The comparison for the desk: whoever answers for a site, its sites and no other."""
from uuid import UUID

from rest_framework.decorators import api_view
from rest_framework.request import Request
from rest_framework.response import Response

from inspections.comparison.advice_worth import advice_worth
from inspections.comparison.advised import advised
from inspections.comparison.asking import asked_sites_and_period
from inspections.comparison.kept import kept
from inspections.comparison.learnt import learnt
from inspections.comparison.measures import BY, asked_for, measures
from inspections.comparison.rates import comparison, parts_of
from inspections.comparison.selectors import counted
from inspections.errors import CannotUse, NotFound


@api_view(["GET"])
def compare(request: Request) -> Response:
    """Suppliers of one site or of all that the person may see, over a period of whole days."""
    sites, period = asked_sites_and_period(request)
    return Response(kept(lambda: comparison(counted(sites, period), period), ("comparison", period), sites))


@api_view(["GET"])
def supplier_parts(request: Request, supplier_id: UUID) -> Response:
    """What one supplier's rate is made of."""
    sites, period = asked_sites_and_period(request)
    asked = ("supplier", supplier_id, period)
    return Response(kept(lambda: parts_of(counted(sites, period), supplier_id), asked, sites))


@api_view(["GET"])
def measure(request: Request) -> Response:
    """Measures by supplier, site, specification, species or month; of one of them where the address names it."""
    sites, period = asked_sites_and_period(request)
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
    sites, period = asked_sites_and_period(request)
    found = advised(sites, period)
    return Response({**advice_worth(found, period), "learnt": learnt(found.sites)})
