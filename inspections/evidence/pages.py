"""The supplier's page: no account, no script, readable on a phone and on paper."""
import functools
import tempfile
from collections.abc import Callable
from typing import Any
from uuid import UUID

from django.http import FileResponse, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from inspections.errors import ApiProblem, NotFound
from inspections.evidence.bundle import bundle_name, write_bundle
from inspections.evidence.downloads import logger_download
from inspections.evidence.link_throttle import need_few_wrong, note_wrong
from inspections.evidence.links import delivery_behind, note_opening
from inspections.evidence.models import Seal, SharedCopy
from inspections.evidence.page import page_of
from inspections.evidence.pdf import PAPERS, pdf_of
from inspections.evidence.seals import content_of, seals_of
from inspections.evidence.sharing import read_shared
from inspections.people import trail
from inspections.records import storage
from inspections.records.models import Delivery, LoggerFile
from inspections.records.photo_answers import Answers, NoAdvice, answers_in
from inspections.user_files import AS_DATA, picture_headers

#: No trace of the link in search engines, in other pages' logs or in shared caches.
UNSEEN = {"X-Robots-Tag": "noindex, nofollow, noarchive", "Referrer-Policy": "no-referrer"}


def unseen(view: Callable[..., Any], takes: Callable[..., Any] = require_safe) -> Callable[..., Any]:
    """A page for suppliers: refusals are plain sentences, and nobody else's files or logs keep a trace of it.

    ``takes`` says which methods the address takes, as Django's own decorators do.
    """

    @functools.wraps(view)
    def wrapped(request: HttpRequest, **parts: Any) -> HttpResponse:
        try:
            answer: HttpResponse = view(request, **parts)
        except ApiProblem as refusal:
            answer = render(request, "plain.html", {"sentence": str(refusal)}, status=refusal.status)
        except (Seal.DoesNotExist, FileNotFoundError, SharedCopy.DoesNotExist):
            answer = render(request, "plain.html", {"sentence": str(NotFound())}, status=404)
        for name, value in UNSEEN.items():
            answer[name] = value
        answer.headers.setdefault("Cache-Control", "private, no-cache")
        return answer

    opened: Callable[..., Any] = takes(wrapped)
    return opened


def behind_link(
    view: Callable[..., Any], takes: Callable[..., Any] = require_safe, *, counts: bool = False
) -> Callable[..., Any]:
    """Open the link first; a wrong or ended one gets a plain sentence, and after many wrong ones a wait.

    The view gets the delivery, and as ``base`` what all addresses of its evidence begin with. ``counts``: opening it
    is noted; an opening by the kitchen's own people is not one by the supplier.
    """

    @functools.wraps(view)
    def opened(request: HttpRequest, token: str, **more: Any) -> HttpResponse:
        need_few_wrong(request)
        try:
            delivery = delivery_behind(token)
        except ApiProblem as refusal:
            if refusal.code == "LINK-WRONG":
                note_wrong(request)
            raise
        answer: HttpResponse = view(request, delivery, base=f"/e/{token}", **more)
        if counts and request.method == "GET" and not request.user.is_authenticated:
            note_opening(token)
        return answer

    return unseen(opened, takes)


def page(request: HttpRequest, delivery: Delivery, *, base: str) -> HttpResponse:
    """The evidence of one delivery."""
    return render(request, "evidence/page.html", {**page_of(delivery), "base": base})


def photo(request: HttpRequest, delivery: Delivery, *, base: str, sha256: str, kind: str) -> HttpResponse:
    """A photo of the delivery: a small picture, the whole, or what an advice (``of``; else the newest) looked at."""
    if sha256 not in _sealed_photos(delivery):
        raise ApiProblem("NOT-FOUND", status=404)
    content, content_type = _picture(delivery, sha256, kind, request.GET.get("of", ""))
    return HttpResponse(content, content_type=content_type, headers={
        **picture_headers(content_type, sha256[:12]), "Cache-Control": "private, max-age=3600",
    })


def bundle(request: HttpRequest, delivery: Delivery, *, base: str) -> FileResponse:
    """The bundle as a file to keep."""
    trail.note_look(request, "bundle_taken", delivery.docket_number or delivery.pk, site=delivery.site)
    file = tempfile.TemporaryFile()  # noqa: SIM115  FileResponse closes it when it is sent
    write_bundle(delivery, file)
    file.seek(0)
    return FileResponse(
        file, as_attachment=True, filename=bundle_name(delivery), content_type="application/zip", headers=AS_DATA
    )


def pdf(request: HttpRequest, delivery: Delivery, *, base: str) -> HttpResponse:
    """The page as a PDF, ``paper`` a4 or letter."""
    paper = request.GET.get("paper", "a4")
    if paper not in PAPERS:
        raise ApiProblem("NOT-FOUND", status=404)
    name = f'attachment; filename="{bundle_name(delivery).removesuffix(".zip")}-{paper}.pdf"'
    return HttpResponse(pdf_of(page_of(delivery), paper), content_type="application/pdf",
                        headers={**AS_DATA, "Content-Disposition": name})


def logger_file(request: HttpRequest, delivery: Delivery, *, base: str, file_id: UUID) -> FileResponse:
    """A logger file of the delivery, as it came."""
    row = LoggerFile.objects.filter(delivery=delivery, pk=file_id).first()
    if row is None:
        raise ApiProblem("NOT-FOUND", status=404)
    return logger_download(row)


def _sealed_photos(delivery: Delivery) -> set[str]:
    return {entry["sha256"] for seal in seals_of(delivery) for entry in content_of(seal).get("photos", ())}


def _picture(delivery: Delivery, sha256: str, kind: str, of: str) -> tuple[bytes, str]:
    if kind in ("overlay", "histogram"):
        return _typed(storage.read(_advice_picture(answers_in(delivery.document)[sha256], kind, of)))
    if kind == "thumb":
        try:
            return _typed(storage.read(storage.derived_name(sha256, "thumb")))
        except FileNotFoundError:
            # The worker has not come to it yet: the whole picture serves as well, only slower.
            pass
    copy = SharedCopy.objects.get(pk=sha256)
    return read_shared(copy), copy.content_type


def _advice_picture(answers: Answers, kind: str, of: str) -> str:
    given = [] if isinstance(answers, NoAdvice) else [one for one in answers if of in ("", str(one.pk))]
    name = getattr(given[-1], f"{kind}_name") if given else ""
    if not name:
        raise ApiProblem("NOT-FOUND", status=404)
    return name


def _typed(content: bytes) -> tuple[bytes, str]:
    if content.startswith(b"\x89PNG"):
        return content, "image/png"
    return content, "image/webp" if content[8:12] == b"WEBP" else "image/jpeg"
