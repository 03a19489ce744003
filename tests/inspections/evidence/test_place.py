"""Photos leave the house without the place they were taken at, and with the picture as it was."""
import io
import struct
import zlib

import pytest
from PIL import Image

from inspections.evidence.models import SharedCopy
from inspections.evidence.sharing import read_shared, shared_copy
from inspections.evidence.strip_location import tells_place, without_place
from inspections.records.models import Photo
from tests.inspections.receiving import keep, picture, sha256_of, with_place


def pixels(content: bytes) -> bytes:
    with Image.open(io.BytesIO(content)) as opened:
        return opened.convert("RGB").tobytes()


def exif_of(content: bytes) -> Image.Exif:
    with Image.open(io.BytesIO(content)) as opened:
        return opened.getexif()


def png(colour: str = "teal", *, exif: Image.Exif | None = None) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), colour).save(out, "PNG", **({"exif": exif} if exif else {}))
    return out.getvalue()


def webp() -> bytes:
    exif = Image.Exif()
    exif[0x8825] = {1: "N", 2: (38.0, 42.0, 0.0)}
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "teal").save(out, "WEBP", exif=exif)
    return out.getvalue()


def segment(marker: int, body: bytes) -> bytes:
    return bytes([0xFF, marker]) + struct.pack(">H", len(body) + 2) + body


def placed_png() -> bytes:
    exif = Image.Exif()
    exif[0x0112] = 3
    exif[0x8825] = {1: "N", 2: (38.0, 42.0, 0.0)}
    return png(exif=exif)


XMP = segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta exif:GPSLatitude='38,42N'/>")
IPTC = segment(0xED, b"Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x08\x1c\x02\x5a\x00\x03LIS")

XMP_SERIAL = segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta aux:SerialNumber='F2LX1234ABCD'/>")


def in_exif(tag: int, value, *, is_in_main: bool = False) -> Image.Exif:
    """EXIF with one entry, by its number in CIPA DC-008 (serials and owner: 4.6.5, table 8)."""
    exif = Image.Exif()
    if is_in_main:
        exif[tag] = value
    else:
        exif[0x8769] = {tag: value}
    return exif


TELLING = {
    "EXIF position": with_place(),
    "XMP position": picture()[:2] + XMP + picture()[2:],
    "IPTC city": picture()[:2] + IPTC + picture()[2:],
    "a comment": picture()[:2] + segment(0xFE, b"GPS 38.7,-9.1") + picture()[2:],
    "a clip behind the picture": picture() + b"\0\0\0\x18ftypmp42 location",
    "EXIF serial number": picture(exif=in_exif(0xA431, "F2LX1234ABCD")),
    "EXIF owner": picture(exif=in_exif(0xA430, "Rosa Lind")),
    "a maker's own block": picture(exif=in_exif(0x927C, b"Apple iOS\0\0\x01MM device 7")),
    "EXIF artist": picture(exif=in_exif(0x013B, "Rosa Lind", is_in_main=True)),
    "XMP serial number": picture()[:2] + XMP_SERIAL + picture()[2:],
    "PNG with EXIF serial number": png(exif=in_exif(0xA431, "F2LX1234ABCD")),
    "cut off": picture()[:-40],
    "PNG with EXIF position": placed_png(),
    "WebP with EXIF position": webp(),
}


@pytest.mark.parametrize("name", TELLING)
def test_a_place_is_seen(name):
    assert tells_place(TELLING[name])


UNTOLD = [
    picture(), png(), picture(progressive=True), picture(exif=b""),
    picture(exif=in_exif(0x0110, "Phone 9", is_in_main=True)),
]  # fmt: skip


@pytest.mark.parametrize("content", UNTOLD, ids=range(len(UNTOLD)))
def test_a_photo_without_a_place_is_left_as_it_is(content):
    assert not tells_place(content)


@pytest.mark.parametrize("name", [name for name in TELLING if name != "cut off"])
def test_the_copy_tells_no_place_and_shows_the_same(name):
    content = TELLING[name]
    copy, content_type, is_untouched = without_place(content)
    assert not tells_place(copy)
    assert not any(word in copy for word in (b"GPS", b"F2LX1234ABCD", b"Rosa Lind", b"Apple iOS"))
    if is_untouched:
        assert pixels(copy) == pixels(content)
    with Image.open(io.BytesIO(copy)) as opened:
        assert Image.MIME[opened.format] == content_type


def test_a_jpeg_keeps_its_turn_and_its_compressed_picture_byte_for_byte():
    content = with_place(turn=6)
    copy, _, is_untouched = without_place(content)
    assert is_untouched
    assert exif_of(copy).get(0x0112) == 6
    assert not exif_of(copy).get_ifd(0x8825)
    scan = content[content.index(b"\xff\xda"):]
    assert copy.endswith(scan)


def test_a_png_keeps_its_turn_and_every_chunk_has_its_crc():
    copy, _, is_untouched = without_place(placed_png())
    assert is_untouched
    assert exif_of(copy).get(0x0112) == 3
    at = 8
    while at < len(copy):
        (length,) = struct.unpack_from(">I", copy, at)
        body = copy[at + 4 : at + 8 + length]
        assert zlib.crc32(body) == struct.unpack_from(">I", copy, at + 8 + length)[0]
        at += 12 + length


def test_a_progressive_jpeg_with_many_scans_is_walked_to_its_end():
    content = picture(size=(400, 300), progressive=True, exif=exif_of(with_place()))
    copy, _, is_untouched = without_place(content)
    assert is_untouched
    assert pixels(copy) == pixels(content)


def test_the_same_photo_gives_the_same_copy():
    assert without_place(with_place()) == without_place(with_place())


def test_the_copy_is_made_once_and_the_photo_as_taken_stays(db, apart):
    content = with_place()
    photo = Photo.objects.get(pk=keep(content))
    first, second = shared_copy(photo), shared_copy(photo)
    assert first == second
    assert first.how == SharedCopy.How.PLACE_REMOVED
    assert sha256_of(read_shared(first)) == first.sha256 != photo.sha256
    from inspections.records import storage

    assert storage.read(photo.stored_name) == content


def test_a_photo_without_a_place_is_shared_as_taken(db, apart):
    photo = Photo.objects.get(pk=keep(picture()))
    copy = shared_copy(photo)
    assert (copy.how, copy.sha256, copy.stored_name) == ("as_taken", photo.sha256, photo.stored_name)
