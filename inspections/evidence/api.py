"""The desk's side of evidence: make, list and end links; the seals of a delivery."""
from uuid import UUID

from django.conf import settings
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.evidence.links import USUAL_DAYS, end_link, link_json, make_link
from inspections.evidence.models import EvidenceLink
from inspections.evidence.seals import seal_json, seals_of
from inspections.people import trail
from inspections.people.access import need_role, sites_for
from inspections.people.models import Role
from inspections.records.lookups import delivery_at


class Links(APIView):
    """``GET`` lists the links of a delivery; ``POST {"days": 60}`` makes one and tells its address this once."""

    def get(self, request: Request, delivery_id: UUID) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        delivery = delivery_at(sites_for(request.user), delivery_id)
        rows = EvidenceLink.objects.filter(delivery=delivery).select_related("created_by")
        return Response({"links": [link_json(link) for link in rows]})

    def post(self, request: Request, delivery_id: UUID) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        asked = request.data if isinstance(request.data, dict) else {}
        delivery = delivery_at(sites_for(request.user), delivery_id)
        link, token = make_link(delivery=delivery, person=request.user, days=asked.get("days", USUAL_DAYS))
        trail.note(request, "link_made", delivery.docket_number or delivery.pk, site=delivery.site)
        at = f"/e/{token}"
        url = settings.PUBLIC_ADDRESS + at if settings.PUBLIC_ADDRESS else request.build_absolute_uri(at)
        return Response({**link_json(link), "url": url}, status=201, headers={"Cache-Control": "no-store"})


class Link(APIView):
    """``DELETE`` ends a link now."""

    def delete(self, request: Request, link_id: UUID) -> Response:
        delivery = end_link(link_id=link_id, person=request.user).delivery
        trail.note(request, "link_ended", delivery.docket_number or delivery.pk, site=delivery.site)
        return Response(status=204)


class Seals(APIView):
    """The seals of a delivery and of its addenda, oldest first, with the public keys to check them."""

    def get(self, request: Request, delivery_id: UUID) -> Response:
        seals = seals_of(delivery_at(sites_for(request.user), delivery_id))
        keys = {seal.public_key_id: seal.public_key.pem for seal in seals}
        return Response({"seals": [seal_json(seal) for seal in seals], "public_keys": keys})
