"""Does a photo tell where or with whose phone it was taken, and how does one take that out of it?

A phone may write its position into a photo: in the EXIF GPS block, in XMP or IPTC text, or in a clip
appended after the picture. A camera may write its serial number and its owner's name, and makers keep blocks of
their own that hold anything. A supplier has no business knowing any of it. Photos are kept as taken; what leaves
the house is the same file if it tells nothing of it, else a copy: of JPEG and PNG all notes are left out while
the compressed picture stays byte for byte, anything else is written anew as JPEG.

Where it doesn't hold: pictures of a place still show the place. Which make and model took the photo, when, and
how it was lit stays in the file.

Sources: ITU-T T.81 annex B (JPEG markers), CIPA DC-008 (EXIF), ISO/IEC 15948 (PNG chunks); from memory.
"""
import io
import struct
import warnings
import zlib
from collections.abc import Iterator

import pillow_heif
from PIL import ExifTags, Image, ImageOps

pillow_heif.register_heif_opener()

PNG_HEAD = b"\x89PNG\r\n\x1a\n"
PNG_NOTES = {b"eXIf", b"tEXt", b"iTXt", b"zTXt", b"tIME"}
JPEG_HEAD = b"\xff\xd8"
XMP_PLACE = (b"gps", b"location", b"city", b"latitude", b"serial", b"owner")
#: EXIF entries that name a person or one single device; MakerNote is the maker's own block, in no common format.
TELLTALE = (
    ExifTags.Base.Artist, ExifTags.Base.HostComputer, ExifTags.Base.CameraOwnerName, ExifTags.Base.BodySerialNumber,
    ExifTags.Base.LensSerialNumber, ExifTags.Base.CameraSerialNumber, ExifTags.Base.ImageUniqueID,
    ExifTags.Base.MakerNote, ExifTags.Base.UserComment, ExifTags.Base.XPAuthor, ExifTags.Base.XPComment,
)
REWRITTEN_QUALITY = 95


class NotWalkable(Exception):
    """The file does not keep to its format; it cannot be copied part by part."""


def tells_place(content: bytes) -> bool:
    """Whether the file may hold the place where it was taken, its owner or its device's number; in doubt, yes.

    Parameters
    ----------
    content : bytes
        A whole JPEG, PNG, WebP or HEIC file.
    """
    try:
        if content.startswith(JPEG_HEAD) and _jpeg_tells(content):
            return True
        with warnings.catch_warnings(), Image.open(io.BytesIO(content)) as picture:
            warnings.simplefilter("ignore")
            exif = picture.getexif()
            if exif.get_ifd(ExifTags.IFD.GPSInfo):
                return True
            named = {**exif, **exif.get_ifd(ExifTags.IFD.Exif)}
            if any(named.get(entry) for entry in TELLTALE):
                return True
            notes = [value for key, value in picture.info.items() if key not in {"exif", "icc_profile"}]
            return any(_text_tells(value) for value in notes)
    except Exception:  # a damaged note block fails in many ways; none of them proves that there is no place
        return True


def without_place(content: bytes) -> tuple[bytes, str, bool]:
    """The photo without its notes.

    Returns
    -------
    tuple of bytes, str and bool
        The copy, its content type, and whether the compressed picture is untouched.
    """
    turn = _orientation(content)
    try:
        if content.startswith(JPEG_HEAD):
            return _bare_jpeg(content, turn), "image/jpeg", True
        if content.startswith(PNG_HEAD):
            return _bare_png(content, turn), "image/png", True
    except (NotWalkable, struct.error, IndexError):
        pass
    return _rewritten(content), "image/jpeg", False


def _jpeg_tells(content: bytes) -> bool:
    try:
        parts = list(_jpeg_parts(content))
    except NotWalkable:
        return True
    for marker, part in parts:
        if marker == 0xE1 and not part[4:].startswith(b"Exif\0") and _text_tells(part):
            return True
        if marker == 0xED or (marker == 0xFE and _text_tells(part)):
            return True
    return sum(len(part) for _, part in parts) < len(content)


def _text_tells(value: str | bytes) -> bool:
    if isinstance(value, str):
        value = value.encode("utf-8", "replace")
    return isinstance(value, bytes) and any(word in value.lower() for word in XMP_PLACE)


def _jpeg_parts(content: bytes) -> Iterator[tuple[int, bytes]]:
    """Marker and whole bytes of each part, from the start to the end-of-image marker and no further."""
    at = 2
    yield 0xD8, content[:2]
    while True:
        start = at
        if at + 2 > len(content) or content[at] != 0xFF:
            raise NotWalkable
        while at + 1 < len(content) and content[at + 1] == 0xFF:
            at += 1
        marker = content[at + 1] if at + 1 < len(content) else None
        if marker is None:
            raise NotWalkable
        at += 2
        if marker == 0xD9:
            yield marker, content[start:at]
            return
        if marker != 0x01 and not 0xD0 <= marker <= 0xD7:
            at += struct.unpack_from(">H", content, at)[0] if at + 2 <= len(content) else len(content)
        if marker == 0xDA:
            at = _end_of_scan(content, at)
        if at > len(content):
            raise NotWalkable
        yield marker, content[start:at]


def _end_of_scan(content: bytes, at: int) -> int:
    """Where the compressed data ends: at the first FF that is neither stuffed (00) nor a restart (D0 to D7)."""
    while True:
        at = content.find(b"\xff", at)
        if at < 0 or at + 1 >= len(content):
            raise NotWalkable
        if content[at + 1] != 0x00 and not 0xD0 <= content[at + 1] <= 0xD7:
            return at
        at += 2


def _bare_jpeg(content: bytes, turn: int) -> bytes:
    kept = []
    for marker, part in _jpeg_parts(content):
        is_note = 0xE1 <= marker <= 0xEF or marker == 0xFE
        is_colour = (marker == 0xE2 and part[4:].startswith(b"ICC_PROFILE\0")) or marker == 0xEE
        if is_colour or not is_note:
            kept.append(part)
        if marker == 0xD8 and turn != 1:
            block = b"Exif\0\0" + _orientation_block(turn)
            kept.append(b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block)
    return b"".join(kept)


def _bare_png(content: bytes, turn: int) -> bytes:
    kept, at = [PNG_HEAD], len(PNG_HEAD)
    while True:
        (length,) = struct.unpack_from(">I", content, at)
        name, whole = content[at + 4 : at + 8], content[at : at + 12 + length]
        if len(whole) != 12 + length:
            raise NotWalkable
        at += len(whole)
        if name not in PNG_NOTES:
            kept.append(whole)
        if name == b"IHDR" and turn != 1:
            block = _orientation_block(turn)
            kept.append(struct.pack(">I", len(block)) + b"eXIf" + block
                        + struct.pack(">I", zlib.crc32(b"eXIf" + block)))
        if name == b"IEND":
            return b"".join(kept)


def _orientation(content: bytes) -> int:
    try:
        with warnings.catch_warnings(), Image.open(io.BytesIO(content)) as picture:
            warnings.simplefilter("ignore")
            turn = picture.getexif().get(ExifTags.Base.Orientation, 1)
    except Exception:  # an unreadable note block names no turn
        return 1
    return turn if turn in range(1, 9) else 1


def _orientation_block(turn: int) -> bytes:
    """A TIFF block with the one entry that a viewer needs: which way up."""
    return struct.pack(">2sHIHHHIHHI", b"MM", 42, 8, 1, 0x0112, 3, 1, turn, 0, 0)


def _rewritten(content: bytes) -> bytes:
    with Image.open(io.BytesIO(content)) as picture:
        upright = ImageOps.exif_transpose(picture).convert("RGB")
        bare = Image.frombytes("RGB", upright.size, upright.tobytes())
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=REWRITTEN_QUALITY)
    return out.getvalue()
