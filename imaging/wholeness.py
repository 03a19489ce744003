"""Can these bytes be looked at as a photo at all? Told when they arrive, without decoding a picture at full size.

Method: the head must name a kind and a size that can be read (``decode.read_header``); then the file must be whole:
a JPEG decodes at an eighth of its size, every chunk of a PNG has its checksum, the boxes of a HEIC end with the file.
WebP tells its length in its head. Whatever passes and is damaged all the same is told by the analysis.
Sources: W3C PNG, 5.3 and 5.4 (chunks and CRC); ISO/IEC 14496-12, 4.2 (boxes); both from memory.
"""

from __future__ import annotations

import io
import struct

from PIL import Image

from imaging.decode import UnreadablePhoto, read_header, read_photo

#: Codes of ``decode`` after which nothing can be shown of the file; the others only hinder advice.
UNREADABLE = ("PHOTO-EMPTY", "PHOTO-NOT-A-PICTURE", "PHOTO-DAMAGED", "PHOTO-TOO-MANY-PIXELS")
_SMALL = 64  # px: smaller than an eighth of any photo, so that a JPEG is decoded at an eighth


def why_unreadable(data: bytes) -> str:
    """The code of ``UNREADABLE`` that stands in the way of looking at a file; empty when nothing does.

    Parameters
    ----------
    data : bytes
        Not changed.
    """
    try:
        kind = read_header(data).format
        if kind == "JPEG":
            read_photo(data, _SMALL)
        is_whole = kind not in _IS_WHOLE or _IS_WHOLE[kind](data)
    except UnreadablePhoto as trouble:
        return trouble.code if trouble.code in UNREADABLE else ""
    return "" if is_whole else "PHOTO-DAMAGED"


def _is_whole_png(data: bytes) -> bool:
    try:
        with Image.open(io.BytesIO(data), formats=("PNG",)) as image:
            image.verify()
    except Exception:  # Pillow's plugins raise almost anything on damaged files
        return False
    return True


def _is_whole_heif(data: bytes) -> bool:
    at = 0
    while at + 8 <= len(data):
        (size,) = struct.unpack_from(">I", data, at)
        if size == 0:  # to the end of the file
            return True
        if size == 1 and at + 16 <= len(data):
            (size,) = struct.unpack_from(">Q", data, at + 8)
        if size < 8:
            return False
        at += size
    return at == len(data)


_IS_WHOLE = {"PNG": _is_whole_png, "HEIF": _is_whole_heif}
