"""The desk's side of claims."""
from uuid import UUID

from django.conf import settings
from django.http import HttpResponse
from django.utils import timezone
from rest_framework.parsers import MultiPartParser
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.claims import answers, exports, selectors, supplier_people
from inspections.claims import standing as stands
from inspections.claims.files import read_files
from inspections.claims.invitations import invitation_address
from inspections.claims.messages import send_again
from inspections.claims.models import Message, SupplierPerson, SupplierTerms
from inspections.claims.served import file_answer
from inspections.claims.services import Said, change_claim, draft_claim, drop_draft, say
from inspections.describe import FORM, describe
from inspections.errors import NotFound
from inspections.people import trail
from inspections.people.access import need_role, sites_for
from inspections.people.models import Role
from inspections.records.models import DocketLine, Supplier
from inspections.strict import read, read_query
from inspections.user_files import AS_DATA

MANAGERS = (Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
TYPES = {"csv": "text/csv; charset=utf-8",
         "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"}  # fmt: skip
TABLES = tuple(kind.partition(";")[0] for kind in TYPES.values())


class Claims(APIView):
    """``GET`` lists claims; ``POST`` drafts one on a docket line: ``{"line": id}``."""

    @describe(answers.ClaimsAnswer, query=answers.ClaimsQuery)
    def get(self, request: Request) -> Response:
        found = _listed(request)
        now = timezone.now()
        rows = [selectors.claim_row(claim, now) for claim in found[:selectors.MOST_ROWS]]
        return Response({"rows": rows, "count": found.count(), "sends_mail": settings.SENDS_MAIL})

    @describe(answers.ClaimDetail, 201, body=answers.NewClaim)
    def post(self, request: Request) -> Response:
        need_role(request.user, *MANAGERS)
        line = DocketLine.objects.select_related(
            "delivery__site", "delivery__supplier", "specification_version__specification"
        ).filter(pk=read(answers.NewClaim, request.data).line, delivery__site__in=sites_for(request.user)).first()
        if line is None:
            raise NotFound()
        claim = draft_claim(line=line, person=request.user)
        trail.note(request, "claim_drafted", claim.number, site=line.delivery.site)
        return Response(selectors.claim_json(claim), status=201)


class ClaimsOf(APIView):
    """The claims of one delivery, for its page."""

    @describe(answers.ClaimsOfDelivery)
    def get(self, request: Request, delivery_id: UUID) -> Response:
        need_role(request.user, *MANAGERS)
        found = selectors.claims_at(sites_for(request.user), state="all").filter(delivery=delivery_id)
        return Response({"rows": [selectors.claim_row(claim) for claim in found]})


class OneClaim(APIView):
    """A claim; ``PUT`` puts other items into a draft, ``DELETE`` gives a draft up."""

    @describe(answers.ClaimDetail)
    def get(self, request: Request, claim_id: UUID) -> Response:
        return Response(selectors.claim_json(_claim(request, claim_id)))

    @describe(answers.ClaimDetail, body=answers.ItemsSent)
    def put(self, request: Request, claim_id: UUID) -> Response:
        claim = _claim(request, claim_id)
        change_claim(claim=claim, items=read(answers.ItemsSent, request.data).items, person=request.user)
        trail.note(request, "claim_changed", claim.number, site=claim.delivery.site)
        return Response(selectors.claim_json(claim))

    @describe(None, 204)
    def delete(self, request: Request, claim_id: UUID) -> Response:
        claim = _claim(request, claim_id)
        drop_draft(claim=claim, person=request.user)
        trail.note(request, "claim_dropped", claim.number, site=claim.delivery.site)
        return Response(status=204)


class Entries(APIView):
    """``POST`` says something in the thread, with the files that go with it."""

    parser_classes = [MultiPartParser]

    @describe(answers.ClaimDetail, 201, body=answers.EntryForm, takes=(FORM,))
    def post(self, request: Request, claim_id: UUID) -> Response:
        claim, sent = _claim(request, claim_id), request.POST
        asked = read_query(answers.EntrySent, sent)
        files = read_files(claim.delivery, request.FILES.getlist("files"), sent, is_kitchens=True)
        say(claim=claim, said=Said(side=stands.KITCHEN, by=request.user.name, person=request.user, files=files,
                                   **asked.given()))
        trail.note(request, "claim_said", f"{claim.number}: {stands.kind_words(asked.kind).lower()}",
                   site=claim.delivery.site)
        return Response(selectors.claim_json(_claim(request, claim_id)), status=201)


class ClaimFile(APIView):
    """A file of a claim's thread: a picture made from a photo, or the file as it came, to be saved."""

    @describe(bytes, gives=("image/jpeg", "image/webp", "application/octet-stream"))
    def get(self, request: Request, claim_id: UUID, sha256: str, kind: str) -> HttpResponse:
        return file_answer(_claim(request, claim_id), sha256, kind)


class Mail(APIView):
    """``POST`` lets a mail go out again that was not sent, or may not have been."""

    @describe(answers.ClaimDetail)
    def post(self, request: Request, claim_id: UUID, mail_id: UUID) -> Response:
        claim = _claim(request, claim_id)
        mail = Message.objects.filter(pk=mail_id, claim=claim).first()
        if mail is None:
            raise NotFound()
        send_again(message=mail)
        return Response(selectors.claim_json(claim))


class Table(APIView):
    """The list as a file, with the same filters."""

    @describe(bytes, query=answers.ClaimsQuery, gives=TABLES)
    def get(self, request: Request, ending: str) -> HttpResponse:
        rows = [selectors.claim_row(claim) for claim in _listed(request)]
        content = exports.csv_of(rows) if ending == "csv" else exports.xlsx_of(rows)
        name = f'attachment; filename="claims-{timezone.localdate()}.{ending}"'
        return HttpResponse(content, content_type=TYPES[ending], headers={**AS_DATA, "Content-Disposition": name})


class Figures(APIView):
    """What the claims on each supplier come to, by currency."""

    @describe(answers.FiguresAnswer, query=answers.ClaimsQuery)
    def get(self, request: Request) -> Response:
        return Response({"rows": selectors.figures(_listed(request, state="all"))})


class Terms(APIView):
    """A supplier's terms for claims: currency, hours to give notice, hours to answer."""

    @describe(answers.ClaimTerms)
    def get(self, request: Request, supplier_id: UUID) -> Response:
        need_role(request.user, *MANAGERS)
        return Response(selectors.terms_json(_supplier(supplier_id)))

    @describe(answers.ClaimTerms, body=answers.TermsSent)
    def put(self, request: Request, supplier_id: UUID) -> Response:
        need_role(request.user, Role.GROUP_OPERATIONS)
        supplier = _supplier(supplier_id)
        asked = read(answers.TermsSent, request.data).given()
        SupplierTerms.objects.update_or_create(supplier=supplier, defaults=asked)
        trail.note(request, "entry_changed", f"claim terms: {supplier}")
        return Response(selectors.terms_json(supplier))


class SupplierPeople(APIView):
    """Who of a supplier may sign in to its own pages; ``POST`` invites one."""

    @describe(answers.SupplierPeopleAnswer)
    def get(self, request: Request, supplier_id: UUID) -> Response:
        need_role(request.user, *MANAGERS)
        rows = SupplierPerson.objects.select_related("person", "invited_by").filter(supplier=_supplier(supplier_id))
        return Response({"rows": [supplier_people.person_json(row) for row in rows]})

    @describe(answers.SupplierInvited, 201, body=answers.SupplierPersonSent)
    def post(self, request: Request, supplier_id: UUID) -> Response:
        need_role(request.user, Role.GROUP_OPERATIONS)
        asked = read(answers.SupplierPersonSent, request.data)
        row, token = supplier_people.invite(
            supplier=_supplier(supplier_id), name=asked.name, email=asked.email, by=request.user)
        return _invited(request, row, token, 201)


class OneSupplierPerson(APIView):
    """End the account of a supplier's person, or invite its owner anew."""

    @describe(answers.SupplierInvited, body=answers.SupplierPersonUse)
    def put(self, request: Request, supplier_id: UUID, person_id: int) -> Response:
        need_role(request.user, Role.GROUP_OPERATIONS)
        is_active = read(answers.SupplierPersonUse, request.data).is_active
        row, token = supplier_people.let_in(
            supplier=_supplier(supplier_id), person_id=person_id, by=request.user, is_active=is_active)
        return _invited(request, row, token, 200)


def _invited(request: Request, row: SupplierPerson, token: str, status: int) -> Response:
    trail.note(request, "supplier_invited" if token else "supplier_ended", f"{row.person} of {row.supplier}")
    address = invitation_address(token, request.build_absolute_uri("/").rstrip("/")) if token else ""
    told = {**supplier_people.person_json(row), "address": address}
    return Response(told, status=status, headers={"Cache-Control": "no-store"})


def _listed(request: Request, **more):
    need_role(request.user, *MANAGERS)
    asked = read_query(answers.ClaimsQuery, request.query_params).given() | more
    return selectors.claims_at(sites_for(request.user), is_over=asked.pop("over") == "yes", **asked)


def _claim(request: Request, claim_id: UUID):
    need_role(request.user, *MANAGERS)
    return selectors.claim_at(sites_for(request.user), claim_id)


def _supplier(supplier_id: UUID) -> Supplier:
    supplier = Supplier.objects.filter(pk=supplier_id).first()
    if supplier is None:
        raise NotFound()
    return supplier
