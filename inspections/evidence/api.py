"""The desk's side of evidence: make, list and end links; the seals of a delivery."""
from uuid import UUID

from django.conf import settings
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.describe import describe
from inspections.evidence import answers
from inspections.evidence.anchors import anchored
from inspections.evidence.links import end_link, link_json, make_link
from inspections.evidence.models import EvidenceLink
from inspections.evidence.qr import qr_path
from inspections.evidence.seals import seal_json, seals_of
from inspections.people import trail
from inspections.people.access import need_role, signed_in, sites_for
from inspections.people.models import Role
from inspections.records.selectors import delivery_at
from inspections.strict import read


class Links(APIView):
    """``GET`` lists the links of a delivery; ``POST`` makes one and tells its address this once.

    ``{"days": 60, "to_whom": "Ade, quality"}``, both optional. The answer has the address also as a QR code, the
    supplier's mail address, and the latest seal of the delivery: sent along, it is an anchor outside this server.
    """

    @describe(answers.LinksAnswer)
    def get(self, request: Request, delivery_id: UUID) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        delivery = delivery_at(sites_for(request.user), delivery_id)
        rows = EvidenceLink.objects.filter(delivery=delivery).select_related("created_by")
        return Response({"links": [link_json(link) for link in rows]})

    @describe(answers.NewEvidenceLink, 201, body=answers.LinkAsked)
    def post(self, request: Request, delivery_id: UUID) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        asked = read(answers.LinkAsked, request.data)
        delivery = delivery_at(sites_for(request.user), delivery_id)
        link, token = make_link(
            delivery=delivery, person=signed_in(request.user), days=asked.days, to_whom=asked.to_whom
        )
        trail.note(request, "link_made", delivery.docket_number or delivery.pk, site=delivery.site)
        at = anchored(f"/e/{token}", delivery.site)
        url = settings.PUBLIC_ADDRESS + at if settings.PUBLIC_ADDRESS else request.build_absolute_uri(at)
        last = seals_of(delivery)[-1]
        told = {**link_json(link), "url": url, "qr": qr_path(url), "mail_to": delivery.supplier.contact_email,
                "seal": {"number": last.number, "sha256": last.sha256}}
        return Response(told, status=201, headers={"Cache-Control": "no-store"})


class Link(APIView):
    """``DELETE`` ends a link now."""

    @describe(None, 204)
    def delete(self, request: Request, link_id: UUID) -> Response:
        delivery = end_link(link_id=link_id, person=signed_in(request.user)).delivery
        trail.note(request, "link_ended", delivery.docket_number or delivery.pk, site=delivery.site)
        return Response(status=204)


class Seals(APIView):
    """The seals of a delivery and of its addenda, oldest first, with the public keys to check them."""

    @describe(answers.SealsAnswer)
    def get(self, request: Request, delivery_id: UUID) -> Response:
        seals = seals_of(delivery_at(sites_for(request.user), delivery_id))
        keys = {seal.public_key_id: seal.public_key.pem for seal in seals}
        return Response({"seals": [seal_json(seal) for seal in seals], "public_keys": keys})
