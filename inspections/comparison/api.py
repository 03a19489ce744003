"""The comparison for the desk: whoever answers for a site, its sites and no other."""
from django.utils import timezone
from rest_framework.decorators import api_view
from rest_framework.request import Request
from rest_framework.response import Response

from inspections.comparison.lookups import counted
from inspections.comparison.period import Period
from inspections.comparison.rates import comparison
from inspections.people.access import need_role, need_site, sites_for
from inspections.people.models import Role


@api_view(["GET"])
def compare(request: Request) -> Response:
    """Suppliers of one site or of all that the person may see, over a period of whole days."""
    need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
    asked = request.query_params
    period = Period.read(asked.get("from", ""), asked.get("to", ""), today=timezone.localdate())
    sites = sites_for(request.user)
    if asked.get("site"):
        sites = sites.filter(pk=need_site(request.user, asked["site"]).pk)
    return Response(comparison(counted(sites, period), period))
