"""Files that somebody might send who means harm, and a few that are honest."""
import io
import struct
import zipfile
import zlib

from PIL import Image

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
