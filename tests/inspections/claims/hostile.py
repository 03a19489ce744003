"""Files that somebody might send who means harm, and a few that are honest."""
import io
import struct
import zipfile
import zlib

from PIL import Image

from tests.inspections.receiving import picture

SVG = b'<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
HTML = b"<!doctype html><html><body><script>alert(1)</script></body></html>"


def png_of(width: int, height: int) -> bytes:
    """A PNG whose head promises that size and whose body is a few bytes of nought: a decompression bomb."""
    def chunk(kind: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    body = zlib.compress(bytes(1_000_000), 9)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def archive() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("a", bytes(1_000_000))
    return out.getvalue()


def photo_with_a_page_behind() -> bytes:
    """A JPEG that is a picture and carries a page behind its end."""
    out = io.BytesIO()
    Image.new("RGB", (64, 48), "coral").save(out, "JPEG")
    return out.getvalue() + HTML


#: Name, bytes, told type, and the refusal that it meets.
HOSTILE = [
    ("drawing.svg", SVG, "image/svg+xml", "CLAIM-FILE-KIND"), ("photo.jpg", SVG, "image/jpeg", "CLAIM-FILE-KIND"),
    ("page.html", HTML, "text/html", "CLAIM-FILE-KIND"), ("log.csv", HTML, "text/csv", "CLAIM-FILE-KIND"),
    ("a.zip", archive(), "application/zip", "CLAIM-FILE-KIND"),
    ("run.exe", b"MZ" + bytes(500), "image/png", "CLAIM-FILE-KIND"),
    ("bomb.png", png_of(60_000, 60_000), "image/png", "CLAIM-FILE-KIND"),
    ("cut.jpg", picture("teal", size=(640, 480))[:900], "image/jpeg", "CLAIM-FILE-PICTURE"),
    ("old.heic", b"\x00\x00\x00\x18ftypheic" + bytes(40), "image/heic", "CLAIM-FILE-KIND"),
]  # fmt: skip
