"""The device protocol's addresses: headers and JSON in, one act, headers and JSON out."""
import re
from uuid import UUID

from django.conf import settings
from django.db import OperationalError
from django.utils import timezone
from rest_framework.parsers import BaseParser
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.bodies import need_size
from inspections.describe import Header, describe
from inspections.errors import ApiProblem, Conflict, NotFound, Unprocessable
from inspections.evidence.seals import seal_json
from inspections.people import trail
from inspections.people.access import need_role, need_site
from inspections.people.models import Role
from inspections.records.models import Delivery, Thermometer
from inspections.records.services.ice_point import file_ice_point
from inspections.records.services.ids import as_id
from inspections.records.shape.delivery import InspectionDocument
from inspections.records.shape.door import read_addendum, read_delivery, read_ice_check
from inspections.records.shape.later import AnyAddendum, IceCheck
from inspections.records.thermometers import check_json
from inspections.strict import read_query
from inspections.sync import answers, reference_bundle, uploads
from inspections.sync.advisories import advisories_of
from inspections.sync.document import document_for, put_document
from inspections.sync.handed_in import hand_in
from inspections.sync.idempotency import is_busy
from inspections.sync.possession import held_by
from inspections.sync.signing import add, sign_once

TUS = "1.0.0"
VERSION = Header("Tus-Resumable", "Version of the upload protocol (tus 1.0.0).", needed=True, pattern="^1[.]0[.]0$")
OFFSET = {"Upload-Offset": "Bytes that are here."}
BUILDS_ON = (
    Header("If-Match", "The revision that this one builds on, as the ETag told it.", pattern=r'^"[0-9]{1,9}"$'),
    Header("If-None-Match", "* for the first revision; one of the two is needed.", pattern="^[*]$"),
    Header("X-Underlid-Replace", "yes: lay this one over another person's.", pattern="^yes$"),
    Header("X-Underlid-Device", "What kind of device sends, for others to read."),
)
KEY = Header("Idempotency-Key", "8 to 255 printable characters; the same for the same request.", needed=True,
             pattern="^[!-~]{8,255}$")
LENGTH = Header("Upload-Length", "Bytes of the photo.", needed=True, pattern="^[0-9]{1,15}$")
HASH = Header("Upload-Metadata", "Names and Base64 values: sha256 (needed), type, device.", needed=True,
              pattern="^sha256 [A-Za-z0-9+/]{86}==$")
PIECE_AT = Header("Upload-Offset", "Where the piece begins.", needed=True, pattern="^[0-9]{1,15}$")
KNOWN = Header("If-None-Match", "The ETag of the last answer.")
ETAG = {"ETag": "The revision."}
REVISION = re.compile(r'(?:W/)?"(0|[1-9][0-9]{0,8})"', re.ASCII)


#: The versions of this protocol that the server speaks. A phone names its own; apps before the name speak the first.
OLDEST, NEWEST = 1, 1


class SyncView(APIView):
    """Answers are for this request alone; a busy one says when to come back."""

    def initial(self, request: Request, *args, **kwargs):
        super().initial(request, *args, **kwargs)
        spoken = request.headers.get("X-Underlid-Protocol", "1")
        if not re.fullmatch(r"[0-9]{1,4}", spoken, re.ASCII) or int(spoken) > NEWEST:
            raise ApiProblem("SERVER-TOO-OLD", status=409)
        if int(spoken) < OLDEST:
            raise ApiProblem("APP-TOO-OLD", status=409)

    def handle_exception(self, exc):
        if isinstance(exc, OperationalError) and is_busy(exc):
            exc = Conflict("STILL-BUSY", retry_after_s=2)
        return super().handle_exception(exc)

    def finalize_response(self, request, response, *args, **kwargs):
        response = super().finalize_response(request, response, *args, **kwargs)
        response.headers.setdefault("Cache-Control", "no-store")
        return response


class Reference(SyncView):
    @describe(answers.Reference, 200, 304, headers=(KNOWN,), told=ETAG)
    def get(self, request: Request) -> Response:
        told = reference_bundle.reference_for(request.user)
        tag = f'"{told["revision"]}"'
        headers = {"ETag": tag, "Cache-Control": "private, no-cache"}
        if tag in request.headers.get("If-None-Match", ""):
            return Response(status=304, headers=headers)
        return Response({**told, "server_time": timezone.now().isoformat()}, headers=headers)


class Documents(SyncView):
    @describe(answers.StoredDocument, told=ETAG)
    def get(self, request: Request, document_id: UUID) -> Response:
        found = document_for(request.user, document_id)
        if found is None:
            raise NotFound()
        answer = {"document": found.body, "revision": found.revision, "state": found.state,
                  "updated_at": found.updated_at.isoformat()}
        return Response(answer, headers={"ETag": f'"{found.revision}"'})

    @describe(answers.Revision, 200, 201, body=InspectionDocument, headers=BUILDS_ON, told=ETAG)
    def put(self, request: Request, document_id: UUID) -> Response:
        sent = read_delivery(request.data)
        _need_own_address(sent.entered.id, document_id)
        saved = put_document(
            person=request.user, sent=sent, base=_base(request),
            is_replacement=request.headers.get("X-Underlid-Replace", "").lower() == "yes",
            device_label=request.headers.get("X-Underlid-Device", ""), device=getattr(request, "device", None),
        )
        status = 201 if saved.is_first else 200
        return Response({"revision": saved.revision}, status=status, headers={"ETag": f'"{saved.revision}"'})


class Signature(SyncView):
    @describe(answers.Signed, body=answers.SignatureAsked, headers=(KEY,))
    def post(self, request: Request, document_id: UUID) -> Response:
        body = request.data
        sent = read_delivery(body.get("document") if isinstance(body, dict) else None)
        _need_own_address(sent.entered.id, document_id)
        return Response(sign_once(sent=sent, person=request.user, key=request.headers.get("Idempotency-Key")))


class Addenda(SyncView):
    @describe(answers.AddendumFiled, body=AnyAddendum)
    def put(self, request: Request, delivery_id: UUID, addendum_id: UUID) -> Response:
        delivery = _delivery(request, delivery_id)
        sent = read_addendum(request.data)
        _need_own_address(sent.entered.id, addendum_id)
        return Response({"seal": seal_json(add(delivery=delivery, sent=sent, person=request.user))})


class IcePointChecks(SyncView):
    @describe(answers.IceCheckFiled, body=IceCheck)
    def put(self, request: Request, thermometer_id: UUID, check_id: UUID) -> Response:
        thermometer = _thermometer(request, thermometer_id)
        check = read_ice_check(request.data).entered
        if check.id != str(check_id):
            raise Unprocessable("CHECK-SHAPE", what="id: another than that of the address")
        row = file_ice_point(thermometer=thermometer, check=check, person=request.user)
        return Response({"check": check_json(row)})


class HandedInEntries(SyncView):
    """A phone's file, one entry a request."""

    @describe(answers.HandedIn, body=answers.HandedInEntry)
    def post(self, request: Request) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        done = hand_in(manager=request.user, entry=request.data if isinstance(request.data, dict) else {})
        trail.note(request, "phone_file_brought", done.about, site=done.site)
        return Response(done.answer)


class Advisories(SyncView):
    @describe(answers.Advisories, query=answers.AdvisoriesQuery)
    def get(self, request: Request) -> Response:
        delivery_id = read_query(answers.AdvisoriesQuery, request.query_params).delivery
        return Response({"photos": advisories_of(request.user, delivery_id)})


class StoredPhotos(SyncView):
    """Whether a photo that the person may use is stored for good; of others nothing is told."""

    @describe(None)
    def head(self, request: Request, sha256: str) -> Response:
        if not held_by(request.user, [sha256]):
            raise NotFound()
        return Response()


class Pieces(BaseParser):
    """Leaves the bytes of a piece in the stream."""

    media_type = "application/offset+octet-stream"

    def parse(self, stream, media_type=None, parser_context=None):
        return stream


class TusView(SyncView):
    """What every answer of the upload protocol carries, and what every request must."""

    parser_classes = [Pieces]

    def initial(self, request: Request, *args, **kwargs):
        super().initial(request, *args, **kwargs)
        if request.method != "OPTIONS" and request.headers.get("Tus-Resumable") != TUS:
            raise ApiProblem("TUS-VERSION", status=412)

    def finalize_response(self, request, response, *args, **kwargs):
        response = super().finalize_response(request, response, *args, **kwargs)
        response["Tus-Resumable"] = TUS
        if response.status_code == 412:
            response["Tus-Version"] = TUS
        if isinstance(response.data, dict) and "offset" in (response.data.get("facts") or {}):
            response["Upload-Offset"] = str(response.data["facts"]["offset"])
        return response

    def options(self, request: Request, *args, **kwargs) -> Response:
        return Response(status=204, headers={
            "Tus-Version": TUS, "Tus-Extension": "creation,termination", "Tus-Max-Size": str(settings.MAX_PHOTO_BYTES),
        })


class Uploads(TusView):
    @describe(None, 201, headers=(VERSION, LENGTH, HASH), told={"Location": "Address of the upload.", **OFFSET})
    def post(self, request: Request) -> Response:
        told = uploads.metadata(request.headers.get("Upload-Metadata", ""))
        at = uploads.begin(
            person=request.user, length=_number(request, "Upload-Length"), sha256=told.get("sha256", ""),
            content_type=told.get("type", ""), device_id=as_id(told.get("device")),
        )
        headers = {"Location": f"/sync/uploads/{at.upload.pk}", "Upload-Offset": str(at.offset)}
        return Response(status=201, headers=headers)


class UploadPieces(TusView):
    @describe(None, headers=(VERSION,), told={"Upload-Length": "Bytes in all.", **OFFSET})
    def head(self, request: Request, upload_id: UUID) -> Response:
        at = uploads.progress(uploads.upload_of(request.user, upload_id))
        return Response(headers={"Upload-Offset": str(at.offset), "Upload-Length": str(at.upload.length)})

    @describe(None, 204, body=bytes, takes=(Pieces.media_type,), headers=(VERSION, PIECE_AT), told=OFFSET)
    def patch(self, request: Request, upload_id: UUID) -> Response:
        if request.content_type != Pieces.media_type:
            raise Unprocessable("UPLOAD-HEADERS", status=415, what="Content-Type")
        need_size(request._request, settings.MAX_UPLOAD_PIECE_BYTES)
        upload = uploads.upload_of(request.user, upload_id)
        at = uploads.receive(upload, offset=_number(request, "Upload-Offset"), body=request._request)
        return Response(status=204, headers={"Upload-Offset": str(at.offset)})

    @describe(None, 204, headers=(VERSION,))
    def delete(self, request: Request, upload_id: UUID) -> Response:
        uploads.give_up(uploads.upload_of(request.user, upload_id))
        return Response(status=204)


def _need_own_address(named: str, addressed: UUID) -> None:
    if named != str(addressed):
        raise Unprocessable("DOC-ID-DIFFERS")


def _delivery(request: Request, delivery_id: UUID) -> Delivery:
    found = Delivery.objects.select_related("site").filter(pk=delivery_id).first()
    if found is None:
        raise NotFound()
    need_site(request.user, found.site_id)
    return found


def _thermometer(request: Request, thermometer_id: UUID) -> Thermometer:
    found = Thermometer.objects.filter(pk=thermometer_id).first()
    if found is None:
        raise NotFound()
    need_site(request.user, found.site_id)
    return found


def _base(request: Request) -> int:
    if request.headers.get("If-None-Match", "").strip() == "*":
        return 0
    found = REVISION.fullmatch(request.headers.get("If-Match", "").strip())
    if found is None:
        raise ApiProblem("DOC-NO-PRECONDITION", status=428)
    return int(found[1])


def _number(request: Request, name: str) -> int:
    text = request.headers.get(name, "")
    if not re.fullmatch(r"[0-9]{1,15}", text, re.ASCII):
        raise Unprocessable("UPLOAD-HEADERS", status=400, what=name)
    return int(text)
