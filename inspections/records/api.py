"""The desk's addresses: each view translates, calls one act or lookup, and translates back."""
from uuid import UUID

from django.http import FileResponse, HttpResponse
from rest_framework.parsers import BaseParser, MultiPartParser
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from imaging.card_print import card_pdf
from inspections.bodies import StrictJSON
from inspections.describe import describe
from inspections.errors import ApiProblem, NotFound, Unprocessable
from inspections.people import trail
from inspections.people.access import need_role, sites_for
from inspections.people.models import Role
from inspections.records import entries, parked, selectors, storage
from inspections.records.answers.deliveries import DeliveryDetail, DeliveryPage
from inspections.records.answers.kept import ImportReport
from inspections.records.answers.limits import AdviceSwitch, LimitsAnswer, SpecificationsAnswer
from inspections.records.answers.limits import Specification as SpecificationAnswer
from inspections.records.answers.lots import LotsAnswer
from inspections.records.answers.orders import OrdersAnswer
from inspections.records.answers.parked import ParkedAnswer
from inspections.records.answers.thermometers import ThermometersAnswer
from inspections.records.answers.trials import Trial
from inspections.records.feature_flags import advice_switch
from inspections.records.keeping import KINDS, keep, kept
from inspections.records.lots import lots_found
from inspections.records.models import Advisory, Photo, PhotoUse, Specification
from inspections.records.photo_answers import UNREADABLE
from inspections.records.services.imports import import_rows
from inspections.records.services.photo import NO_PICTURE
from inspections.records.services.reference import publish_limits, publish_specification, switch_advice
from inspections.records.thermometers import allowed_in_ice_c, thermometer_list_json, thermometers_at
from inspections.records.tried_limits import trial_json
from inspections.strict import read, read_query
from inspections.user_files import picture_headers

LARGEST_TABLE = 8 * 1024 * 1024
#: What a photo may be sent as, and a table.
PICTURES = ("image/jpeg", "image/png", "image/webp", "image/heic", "image/heif", "image/avif")
TABLES = ("text/csv", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet")


class DeliveriesView(APIView):
    """Signed deliveries, a page at a time."""

    @describe(DeliveryPage, query=entries.DeliveriesQuery)
    def get(self, request: Request) -> Response:
        asked = read_query(entries.DeliveriesQuery, request.query_params)
        found = selectors.deliveries_at(
            sites_for(request.user), site_id=asked.site, supplier_id=asked.supplier, state=asked.state, words=asked.q,
            has_refused=asked.refused == "yes", has_defective=asked.defective == "yes",
            first_day=asked.first_day, last_day=asked.last_day,
        )
        return Response(selectors.page_of_deliveries(found, asked.page))


class DeliveryView(APIView):
    """One delivery with everything found."""

    @describe(DeliveryDetail)
    def get(self, request: Request, delivery_id) -> Response:
        delivery = selectors.delivery_at(sites_for(request.user), delivery_id)
        trail.note_look(request, "delivery_seen", delivery.docket_number or delivery.pk, site=delivery.site)
        return Response(selectors.delivery_json(delivery))


class LotsView(APIView):
    """Where a lot is: docket lines that name it, with where their cartons went."""

    @describe(LotsAnswer, query=entries.LotsQuery)
    def get(self, request: Request) -> Response:
        return Response(lots_found(sites_for(request.user), read_query(entries.LotsQuery, request.query_params).q))


class PhotoView(APIView):
    """A photo as taken, or a picture made from it; ``of`` names the advice that the picture belongs to."""

    @describe(bytes, query=entries.PhotoQuery, gives=(*PICTURES, NO_PICTURE))
    def get(self, request: Request, sha256: str, size: str) -> FileResponse:
        photo = Photo.objects.filter(pk=sha256).first()
        if photo is None or not selectors.has_photo(sites_for(request.user), sha256):
            raise NotFound()
        if size in ("overlay", "histogram"):
            return _of_advice(photo, size, read_query(entries.PhotoQuery, request.query_params).of)
        if size == "original":
            site = PhotoUse.objects.filter(photo=photo, site__in=sites_for(request.user)).first().site
            trail.note_look(request, "photo_taken", sha256[:12], site=site)
        return _photo(photo, size)


def _photo(photo: Photo, size: str) -> FileResponse:
    if photo.unreadable:
        return _unreadable(photo, size)
    name = photo.stored_name if size == "original" else storage.derived_name(photo.sha256, size)
    if size != "original" and not storage.photos().exists(name):
        # The smaller picture has not been made yet: the photo itself, and ask again next time.
        return _file(photo.stored_name, photo.content_type, "private, no-cache")
    # Under a hash nothing ever changes.
    return _file(name, photo.content_type if size == "original" else "", "private, max-age=31536000, immutable")


def _unreadable(photo: Photo, size: str) -> FileResponse:
    """What is no picture is never shown as one: only to be saved, as it came."""
    if size != "original":
        raise NotFound("PHOTO-UNREADABLE", why=UNREADABLE[photo.unreadable])
    answer = _file(photo.stored_name, NO_PICTURE, "private, max-age=31536000, immutable")
    answer["Content-Disposition"] = f'attachment; filename="{photo.sha256[:12]}.bin"'
    return answer


def _of_advice(photo: Photo, size: str, advice_id: UUID | None) -> FileResponse:
    """Overlay or histogram of that advice; without one, of the newest that has one."""
    field = f"{size}_name"
    names = Advisory.objects.filter(photo=photo).exclude(**{field: ""}).order_by("-created_at", "-id")
    names = names.filter(pk=advice_id) if advice_id else names
    newest = names.values_list(field, flat=True).first()
    if newest is None:
        raise NotFound(f"NO-{size.upper()}")
    return _file(newest, "", "private, no-cache")


def _file(name: str, content_type: str, kept: str) -> FileResponse:
    try:
        file = storage.photos().open(name, "rb")
    except FileNotFoundError as trouble:
        raise NotFound("PHOTO-GONE") from trouble
    kind = content_type or storage.kind_of(file)
    answer = FileResponse(file, content_type=kind)
    # After it: the class names the file by its path in the storage.
    for header, value in {**picture_headers(kind, name.rpartition("/")[2][:12]), "Cache-Control": kept}.items():
        answer[header] = value
    return answer


class ParkedView(APIView):
    """Work on photos that was given up."""

    @describe(ParkedAnswer)
    def get(self, request: Request) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        return Response({"rows": parked.parked_at(sites_for(request.user))})


class ParkedJobView(APIView):
    """One piece of it, to be tried again."""

    @describe(None, 204)
    def post(self, request: Request, job_id: UUID) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        job = parked.try_again(job_id, sites_for(request.user))
        trail.note(request, "photo_tried_again", job.subject["sha256"])
        return Response(status=204)


class OrdersView(APIView):
    """Orders by expected day."""

    @describe(OrdersAnswer, query=entries.OrdersQuery)
    def get(self, request: Request) -> Response:
        asked = read_query(entries.OrdersQuery, request.query_params)
        found = selectors.orders_at(
            sites_for(request.user), site_id=asked.site, first_day=asked.first_day, last_day=asked.last_day
        )
        return Response({"rows": [selectors.order_json(order) for order in found[:500]]})


class LimitsView(APIView):
    """The current limits; a new version of them."""

    @describe(LimitsAnswer)
    def get(self, request: Request) -> Response:
        return Response(selectors.limits_json())

    @describe(LimitsAnswer, 201, body=entries.NewLimits)
    def post(self, request: Request) -> Response:
        need_role(request.user, Role.GROUP_OPERATIONS)
        asked = read(entries.NewLimits, request.data)
        trail.note(request, "limits_published", publish_limits(data=asked.given(), person=request.user))
        return Response(selectors.limits_json(), status=201)


class TrialView(APIView):
    """Another set of limits or plan, tried on signed deliveries. Nothing is changed."""

    @describe(Trial, body=entries.TrialAsked)
    def post(self, request: Request) -> Response:
        need_role(request.user, Role.GROUP_OPERATIONS)
        asked = read(entries.TrialAsked, request.data)
        found = selectors.deliveries_at(
            sites_for(request.user), site_id=asked.site, first_day=asked.first_day, last_day=asked.last_day
        )
        return Response(trial_json(found, asked.limits, asked.plan))


class SpecificationsView(APIView):
    """What is bought; a new version of it."""

    @describe(SpecificationsAnswer)
    def get(self, request: Request) -> Response:
        return Response({"rows": [version.to_json() for version in selectors.newest_versions()]})

    @describe(SpecificationAnswer, 201, body=entries.NewSpecification)
    def post(self, request: Request) -> Response:
        need_role(request.user, Role.GROUP_OPERATIONS)
        version = publish_specification(**read(entries.NewSpecification, request.data).given(), person=request.user)
        trail.note(request, "specification_published", version)
        return Response(version.to_json(), status=201)


class AdviceSwitchView(APIView):
    """Photo advice on or off for one specification."""

    @describe(AdviceSwitch, body=entries.AdviceOn)
    def post(self, request: Request, specification_id) -> Response:
        need_role(request.user, Role.GROUP_OPERATIONS)
        specification = Specification.objects.filter(pk=specification_id).first()
        if specification is None:
            raise NotFound()
        is_on = read(entries.AdviceOn, request.data).is_on
        switch_advice(specification=specification, is_on=is_on, person=request.user)
        trail.note(request, "advice_switched", f"{specification}, {'on' if is_on else 'off'}")
        return Response(advice_switch(specification))


class CardView(APIView):
    """The reference card for photos, to print at actual size."""

    @describe(bytes, gives=("application/pdf",))
    def get(self, request: Request) -> HttpResponse:
        name = 'inline; filename="underlid-reference-card.pdf"'
        return HttpResponse(card_pdf(), content_type="application/pdf", headers={"Content-Disposition": name})


class KeptView(APIView):
    """What is kept by hand, by kind: the list, and one more of it."""

    @describe(by=("kind", {name: (kind.rows_told, None) for name, kind in KINDS.items()}))
    def get(self, request: Request, kind: str) -> Response:
        return Response({"rows": kept(kind, request.user)})

    @describe(None, 201, by=("kind", {name: (kind.told, kind.shape) for name, kind in KINDS.items()}))
    def post(self, request: Request, kind: str) -> Response:
        return _kept(request, kind, None)


class KeptRowView(APIView):
    """One entry of what is kept by hand."""

    @describe(by=("kind", {name: (kind.told, kind.shape) for name, kind in KINDS.items()}))
    def put(self, request: Request, kind: str, row_id: str) -> Response:
        return _kept(request, kind, row_id)


def _kept(request: Request, kind: str, row_id: str | None) -> Response:
    row, told, is_new = keep(kind, request.user, row_id, request.data)
    noun = "person" if kind == "people" else "entry"
    trail.note(request, f"{noun}_{'added' if is_new else 'changed'}", f"{kind}: {row}", site=getattr(row, "site", None))
    if request.data.get("password"):
        trail.note(request, "password_set", row)
    return Response(told, status=201 if is_new else 200)


class ThermometersView(APIView):
    """What is measured with, and how each stands by its last check in ice."""

    @describe(ThermometersAnswer, query=entries.SiteQuery)
    def get(self, request: Request) -> Response:
        site_id = read_query(entries.SiteQuery, request.query_params).site
        found = thermometers_at(sites_for(request.user), site_id=site_id)
        return Response({"allowed_c": allowed_in_ice_c(), "rows": [thermometer_list_json(row) for row in found]})


class TableParser(BaseParser):
    """A CSV file as the body of the request."""

    media_type = "text/*"

    def parse(self, stream, media_type=None, parser_context=None) -> bytes:
        return stream.read(LARGEST_TABLE + 1)


class WorkbookParser(TableParser):
    """An .xlsx workbook, or whatever a browser does not know by name, as the body of the request."""

    media_type = "application/*"


class ImportView(APIView):
    """A table of suppliers, specifications, orders or thermometers; ``dry_run`` checks and writes nothing."""

    parser_classes = [TableParser, MultiPartParser, StrictJSON, WorkbookParser]

    @describe(ImportReport, query=entries.ImportQuery, body=bytes, takes=TABLES)
    def post(self, request: Request, kind: str) -> Response:
        asked = read_query(entries.ImportQuery, request.query_params)
        report = import_rows(
            kind=kind, content=_table(request), person=request.user, keep_good=bool(asked.keep_good),
            is_dry_run=bool(asked.dry_run),
        )
        if not report.is_written and not asked.dry_run:
            raise Unprocessable("IMPORT-LINES", count=len(report.errors), extra=report.to_json())
        if report.is_written:
            trail.note(request, "table_imported", f"{kind}, {report.added} added, {report.changed} changed")
        return Response(report.to_json())


def _table(request: Request) -> bytes:
    content = request.data
    if not isinstance(content, bytes):
        file = request.FILES.get("file")
        if file is None:
            raise Unprocessable("IMPORT-NO-FILE")
        content = file.read(LARGEST_TABLE + 1)
    if len(content) > LARGEST_TABLE:
        raise ApiProblem("TOO-LARGE", status=413, most_mb=LARGEST_TABLE // 1048576)
    return content
