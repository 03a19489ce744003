"""The month's summary for the desk: sentences and table, the same as PDF, and who wants it by mail."""
from typing import cast

from django.conf import settings
from django.http import HttpResponse
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.comparison import answers
from inspections.comparison.asking import asked_sites_and_period
from inspections.comparison.models import SummaryWish
from inspections.comparison.summary import month_asked, summary
from inspections.comparison.summary_mail import pdf_of
from inspections.describe import describe
from inspections.errors import Unprocessable
from inspections.people.access import need_role
from inspections.people.models import Person, Role
from inspections.strict import read, read_query


class SummaryView(APIView):
    """A month of one site or of all that the person may see."""

    @describe(answers.Summary, query=answers.SummaryQuery)
    def get(self, request: Request) -> Response:
        return Response(_asked(request))


class SummaryPdfView(APIView):
    """The same as a PDF."""

    @describe(bytes, query=answers.SummaryQuery, gives=("application/pdf",))
    def get(self, request: Request) -> HttpResponse:
        told = _asked(request)
        return HttpResponse(pdf_of(told), content_type="application/pdf", headers={
            "Content-Disposition": f'attachment; filename="summary-{told["month"]}.pdf"'})


class SummaryMailView(APIView):
    """Whether the person wants it by mail each month."""

    @describe(answers.SummaryWish)
    def get(self, request: Request) -> Response:
        return Response(_wish(_reader(request)))

    @describe(answers.SummaryWish, body=answers.SummaryWishSent)
    def put(self, request: Request) -> Response:
        person = _reader(request)
        if not read(answers.SummaryWishSent, request.data).wanted:
            SummaryWish.objects.filter(pk=person.pk).delete()
        elif not _wish(person)["can"]:
            raise Unprocessable("SUMMARY-NO-MAIL")
        else:
            SummaryWish.objects.get_or_create(person=person)
        return Response(_wish(person))


def _asked(request: Request) -> dict:
    sites, _ = asked_sites_and_period(request)
    month = month_asked(read_query(answers.SummaryQuery, request.query_params).month, today=timezone.localdate())
    return summary(sites, month)


def _reader(request: Request) -> Person:
    need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
    return cast(Person, request.user)


def _wish(person: Person) -> dict[str, bool]:
    return {"wanted": SummaryWish.objects.filter(pk=person.pk).exists(),
            "can": settings.SENDS_MAIL and bool(person.email)}
