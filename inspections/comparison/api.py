"""The comparison for the desk: whoever answers for a site, its sites and no other."""
from uuid import UUID

from django.http import HttpResponse
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.comparison import answers
from inspections.comparison.advice_worth import advice_worth
from inspections.comparison.advised import advised
from inspections.comparison.asking import asked_sites_and_period
from inspections.comparison.kept import kept
from inspections.comparison.learnt import learnt
from inspections.comparison.measures import measures
from inspections.comparison.rates import comparison, parts_of
from inspections.comparison.selectors import counted, counts_of
from inspections.describe import describe
from inspections.records.models import ClaimEntry
from inspections.strict import read_query


class ComparisonView(APIView):
    """Suppliers of one site or of all that the person may see, over a period of whole days."""

    @describe(answers.Comparison, query=answers.PeriodQuery)
    def get(self, request: Request) -> HttpResponse:
        sites, period = asked_sites_and_period(request)
        return _json(kept(lambda: comparison(counted(sites, period), period), ("comparison", period), sites))


class SupplierPartsView(APIView):
    """What one supplier's rate is made of."""

    @describe(answers.SupplierParts, query=answers.PeriodQuery)
    def get(self, request: Request, supplier_id: UUID) -> HttpResponse:
        sites, period = asked_sites_and_period(request)
        asked = ("supplier", supplier_id, period)
        return _json(kept(lambda: parts_of(list(sites), counts_of(sites, period), str(supplier_id)), asked, sites))


class MeasuresView(APIView):
    """Measures by supplier, site, specification, species or month; of one of them where the address names it."""

    @describe(answers.Measures, query=answers.MeasuresQuery)
    def get(self, request: Request) -> HttpResponse:
        sites, period = asked_sites_and_period(request)
        asked = read_query(answers.MeasuresQuery, request.query_params)
        only = {name: value for name in ("supplier", "specification", "species") if (value := getattr(asked, name))}
        # claims go on without a signing; what was said of them is only added to
        said = ClaimEntry.objects.filter(delivery__site__in=sites).count()
        of = ("measures", asked.by, tuple(only.items()), period, said)
        return _json(kept(lambda: measures(sites, period, asked.by, only), of, sites))


class AgreementView(APIView):
    """What the photo advice said against what receivers found, and the cut-offs that it goes by."""

    @describe(answers.AgreementAnswer, query=answers.PeriodQuery)
    def get(self, request: Request) -> Response:
        sites, period = asked_sites_and_period(request)
        found = advised(sites, period)
        return Response({**advice_worth(found, period), "learnt": learnt(found.sites)})


def _json(answer: bytes) -> HttpResponse:
    return HttpResponse(answer, content_type="application/json")
