"""The desk's side of logger files: send one for a delivery, list them, get one back as it came."""
from typing import Any
from uuid import UUID

from django.http import FileResponse
from rest_framework.parsers import MultiPartParser
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.describe import FORM, describe
from inspections.errors import ApiProblem, NotFound, Unprocessable
from inspections.evidence import answers
from inspections.evidence.downloads import logger_download
from inspections.evidence.logger_files import add_logger_file
from inspections.evidence.logger_page import drawings_of
from inspections.people import trail
from inspections.people.access import signed_in, sites_for
from inspections.records.logger_files import logger_file_at, logger_file_json, logger_files_of, read_anew
from inspections.records.models import LoggerFile
from inspections.records.selectors import delivery_at
from inspections.records.services.logger_file import LARGEST


class LoggerFiles(APIView):
    """``GET`` lists a delivery's logger files; ``POST`` adds one: ``file``, and answers where it needs them."""

    parser_classes = [MultiPartParser]

    @describe(answers.LoggerFilesAnswer)
    def get(self, request: Request, delivery_id: UUID) -> Response:
        rows = logger_files_of(delivery_at(sites_for(request.user), delivery_id))
        anew = read_anew(rows)
        return Response({"rows": [_drawn(row) | {"is_read_anew": row.pk in anew} for row in rows]})

    @describe(answers.LoggerFile, 200, 201, body=answers.LoggerFileSent, takes=(FORM,))
    def post(self, request: Request, delivery_id: UUID) -> Response:
        delivery = delivery_at(sites_for(request.user), delivery_id)
        file = request.FILES.get("file")
        if file is None:
            raise Unprocessable("LOGGER-NO-FILE")
        if file.size > LARGEST:
            raise ApiProblem("TOO-LARGE", status=413, most_mb=LARGEST // 1048576)
        data: Any = request.data
        told = {name: str(data.get(name) or "") for name in answers.LoggerAnswers.__annotations__}
        row, is_new = add_logger_file(
            delivery=delivery, name=file.name or "", content=file.read(), told=told, person=signed_in(request.user)
        )
        if is_new:
            trail.note(request, "logger_file_added", row.file_name, site=delivery.site)
        return Response(_drawn(row) | {"is_read_anew": False}, status=201 if is_new else 200)


class OneLoggerFile(APIView):
    """What one logger file was read to say."""

    @describe(answers.LoggerFile)
    def get(self, request: Request, file_id: UUID) -> Response:
        row = _row(request, file_id)
        return Response(_drawn(row) | {"is_read_anew": row.pk in read_anew(logger_files_of(row.delivery))})


class LoggerFileBytes(APIView):
    """A logger file, byte for byte as it came."""

    @describe(bytes, gives=("application/octet-stream",))
    def get(self, request: Request, file_id: UUID) -> FileResponse:
        row = _row(request, file_id)
        trail.note_look(request, "logger_file_taken", row.file_name, site=row.delivery.site)
        return logger_download(row)


def _drawn(row: LoggerFile) -> dict[str, Any]:
    return {**logger_file_json(row), "drawings": drawings_of(row.reading)}


def _row(request: Request, file_id: UUID) -> LoggerFile:
    found = logger_file_at(sites_for(request.user), file_id)
    if found is None:
        raise NotFound()
    return found
