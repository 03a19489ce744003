"""A file of a claim, given out so that no browser runs anything in it."""
from django.http import HttpResponse

from inspections.claims.files import picture_name
from inspections.claims.models import Claim
from inspections.claims.thread import file_in
from inspections.errors import NotFound
from inspections.records import storage
from inspections.user_files import AS_DATA, picture_headers

KINDS = "thumb|screen|original"


def file_answer(claim: Claim, sha256: str, kind: str) -> HttpResponse:
    """``thumb`` and ``screen``: pictures made anew from a photo; ``original``: the file as it came, to be saved only.

    Raises
    ------
    NotFound
        No such file in this claim, or no picture of it.
    """
    file = file_in(claim, sha256)
    kept = {"Cache-Control": "private, max-age=3600"}
    if kind == "original":
        name = f"{sha256[:12]}.{'csv' if file['kind'] == 'logger' else file['type'].rpartition('/')[2]}"
        headers = {**AS_DATA, **kept, "Content-Disposition": f'attachment; filename="{name}"'}
        content = storage.read(storage.claim_file_name(sha256))
        return HttpResponse(content, content_type="application/octet-stream", headers=headers)
    if file["kind"] != "photo":
        raise NotFound()
    content = storage.read(picture_name(sha256, kind))
    content_type = "image/webp" if content[8:12] == b"WEBP" else "image/jpeg"
    headers = {**picture_headers(content_type, sha256[:12]), **kept}
    return HttpResponse(content, content_type=content_type, headers=headers)
