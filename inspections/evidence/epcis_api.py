"""A delivery's events for other systems, to people of its site."""
from uuid import UUID

from django.conf import settings
from django.http import JsonResponse
from rest_framework.request import Request
from rest_framework.views import APIView

from inspections.describe import describe
from inspections.errors import NotFound
from inspections.evidence.answers import Events as EventsTold
from inspections.evidence.bundle import bundle_name
from inspections.evidence.epcis import epcis_document
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import content_of
from inspections.people import trail
from inspections.people.access import sites_for
from inspections.records.selectors import delivery_at


class Events(APIView):
    """``GET`` the EPCIS 2.0 document of a sealed delivery, as a file."""

    @describe(EventsTold, gives=("application/ld+json",))
    def get(self, request: Request, delivery_id: UUID) -> JsonResponse:
        found = delivery_at(sites_for(request.user), delivery_id)
        seal = Seal.objects.filter(subject_id=delivery_id, kind=SealKind.DELIVERY).first()
        if seal is None:
            raise NotFound()
        trail.note_look(request, "events_taken", found.docket_number or found.pk, site=found.site)
        base = settings.PUBLIC_ADDRESS or request.build_absolute_uri("/").rstrip("/")
        told = epcis_document(content_of(seal), base=base.rstrip("/"), recorded_at=seal.sealed_at)
        name = bundle_name(found).replace("evidence-", "events-").replace(".zip", ".jsonld")
        answer = JsonResponse(told, content_type="application/ld+json")
        answer["Content-Disposition"] = f'attachment; filename="{name}"'
        return answer
