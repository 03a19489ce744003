"""The worksheet behind a supplier's link, and the same for the desk: made from the sealed bytes alone."""
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.describe import describe
from inspections.errors import NotFound
from inspections.evidence.addendum_page import moment_words
from inspections.evidence.anchors import docket_address, latest_of
from inspections.evidence.answers import Sheet
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.qr import qr_path
from inspections.evidence.seals import content_of
from inspections.evidence.worksheet import worksheet_of
from inspections.people.access import sites_for
from inspections.records.models import Delivery
from inspections.records.selectors import delivery_at


def worksheet(request: HttpRequest, delivery: Delivery, *, base: str) -> HttpResponse:
    """The worksheet of a delivery as a page to print."""
    seal = _seal_of(delivery)
    record = content_of(seal)
    return render(request, "evidence/worksheet.html", {
        "record": record, "document": record["document"], "seal": seal, "base": base, "is_demo": delivery.is_demo,
        "arrived": moment_words(record["document"]["arrived_at"], ZoneInfo(record["site"]["timezone"])),
        "worksheet": told(worksheet_of(record)), "qr": qr_path(docket_address(request, delivery.pk, delivery.site)),
        "site_latest": latest_of(delivery.site),
    })


class Worksheet(APIView):
    """The worksheet of a delivery as JSON, for the desk."""

    @describe(Sheet)
    def get(self, request: Request, delivery_id: UUID) -> Response:
        found = delivery_at(sites_for(request.user), delivery_id)
        seal = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=found.pk).first()
        if seal is None:
            raise NotFound()
        return Response(told(worksheet_of(content_of(seal))))


def told(sheet: dict[str, Any]) -> dict[str, Any]:
    """The worksheet with its checks in two parts: those made, with a note each, and the names of those left open."""
    return {
        **sheet, "vehicle": _parted(sheet["vehicle"]),
        "lines": [{**_parted(line), "cartons": [_parted(carton) for carton in line["cartons"]]}
                  for line in sheet["lines"]],
    }


def _parted(part: dict[str, Any]) -> dict[str, Any]:
    made = [{**row, "note": _note(row)} for row in part["checks"] if row["state"] != "not_checked"]
    return {**part, "checks": {
        "made": made, "open": [row["name"] for row in part["checks"] if row["state"] == "not_checked"],
    }}


def _note(row: dict[str, Any]) -> str:
    """Whose limit it is and where it is from; what is to be said where there is no limit."""
    return str(row["source"] or row["words"])


def _seal_of(delivery: Delivery) -> Seal:
    """The delivery's own seal; ``Seal.DoesNotExist`` without one, which the link answers with a sentence."""
    return Seal.objects.get(kind=SealKind.DELIVERY, subject_id=delivery.pk)
