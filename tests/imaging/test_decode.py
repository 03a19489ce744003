"""Every file that a phone, or somebody with a text editor, may send: pixels, or one sentence."""

import io
import random
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from imaging import decode
from imaging.advice import Context, advise
from tests.imaging import files

BASE = Path(__file__).resolve().parents[2]
CORNERS = {"red": (75, 100), "green": (75, 300), "blue": (225, 100)}


def is_upright(pixels: np.ndarray) -> bool:
    """BGR of the three coloured corners of `files.picture()`."""
    channel = {"blue": 0, "green": 1, "red": 2}
    return all(int(pixels[CORNERS[name]].argmax()) == channel[name] for name in CORNERS)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_photo_is_upright_whatever_the_camera_wrote(orientation):
    photo = decode.read_photo(files.turned_jpeg(orientation))
    assert (photo.width, photo.height) == (400, 300)
    assert is_upright(photo.pixels)


@pytest.mark.parametrize(
    "data",
    [
        files.jpeg(),
        files.jpeg(progressive=True),
        files.saved(files.picture(), "PNG"),
        files.saved(files.picture(), "WEBP", quality=95),
        files.heic(),
        files.saved(files.picture().quantize(16), "PNG"),
        files.saved(files.picture().convert("RGBA"), "PNG"),
    ],
    ids=["jpeg", "progressive", "png", "webp", "heic", "palette", "alpha"],
)
def test_each_accepted_kind_shows_the_same_picture(data):
    photo = decode.read_photo(data)
    assert is_upright(photo.pixels)
    assert abs(int(photo.pixels[225, 300, 1]) - 128) < 6


def test_sixteen_bit_png_is_read():
    deep = np.full((300, 400), 128 * 257, np.uint16)
    photo = decode.read_photo(files.saved(Image.fromarray(deep), "PNG"))
    assert photo.pixels.dtype == np.uint8
    assert abs(int(photo.pixels[100, 100, 0]) - 128) <= 1


def test_see_through_parts_are_white():
    clear = Image.new("RGBA", (400, 300), (0, 0, 0, 0))
    assert decode.read_photo(files.saved(clear, "PNG")).pixels.min() == 255


def test_large_jpeg_comes_at_the_analysis_size():
    photo = decode.read_photo(files.saved(files.picture(4000, 3000), "JPEG"))
    assert photo.pixels.shape == (750, 1000, 3)
    assert (photo.width, photo.height) == (4000, 3000)


def test_srgb_profile_changes_nothing():
    with_profile = decode.read_photo(files.swapped_profile_jpeg()).pixels
    np.testing.assert_array_equal(
        with_profile, decode.read_photo(files.saved(files.picture(), "JPEG", quality=95)).pixels
    )


REFUSED = {
    "PHOTO-EMPTY": b"",
    "PHOTO-NOT-A-PICTURE": b"Dear receiver, this is a text file named .jpg\n" * 20,
    "PHOTO-DAMAGED": files.jpeg()[:2000],
    "PHOTO-TOO-MANY-PIXELS": files.png_with_size(20000, 10000),
    "PHOTO-TOO-SMALL": files.saved(Image.new("RGB", (8, 8)), "PNG"),
    "PHOTO-MOVING": files.animated("WEBP"),
    "PHOTO-PRINT-COLOURS": files.saved(files.picture().convert("CMYK"), "JPEG"),
}


@pytest.mark.parametrize("code", REFUSED)
def test_what_cannot_be_used_is_refused_with_its_sentence(code):
    with pytest.raises(decode.UnreadablePhoto) as refusal:
        decode.read_photo(REFUSED[code])
    assert refusal.value.code == code
    assert "Your other entries are saved." in refusal.value.sentence
    assert "invalid" not in refusal.value.sentence.lower()
    assert len(refusal.value.sentence.split(". ")) >= 3


def test_too_large_a_file_is_refused_before_it_is_read():
    with pytest.raises(decode.UnreadablePhoto, match="PHOTO-TOO-LARGE"):
        decode.read_photo(b"\xff\xd8\xff" + bytes(decode.MAX_BYTES))


def test_a_webp_too_large_to_hold_is_refused():
    with pytest.raises(decode.UnreadablePhoto, match="PHOTO-TOO-MANY-PIXELS"):
        decode.read_photo(files.saved(Image.new("RGB", (8000, 6000)), "WEBP", method=0))


@pytest.mark.parametrize(
    "data",
    [
        files.animated("PNG"),
        files.png_with_size(65535, 65535),
        files.jpeg_with_size(65500, 65500),
        files.jpeg_with_size(65500, 40),
        files.png_with_size(300, 300),
        b"\xff\xd8\xff\xe0" + bytes(50),
        b"\x89PNG\r\n\x1a\n" + bytes(100),
        b"RIFF\x10\x00\x00\x00WEBPVP8 " + bytes(40),
        b"\0\0\0\x18ftypheic" + bytes(60),
        files.heic()[:600],
        files.saved(files.picture(), "WEBP")[:200],
        files.saved(files.picture(), "GIF"),
        files.saved(files.picture(), "TIFF"),
        bytes(5000),
    ],
)
def test_lies_and_stumps_are_refused(data):
    with pytest.raises(decode.UnreadablePhoto):
        decode.read_photo(data)


def flipped(data: bytes, chance: random.Random) -> bytes:
    """The file with some bits flipped, cut short, or with a piece twice."""
    out = bytearray(data)
    for _ in range(chance.choice((1, 3, 20, 200))):
        out[chance.randrange(len(out))] ^= 1 << chance.randrange(8)
    if chance.random() < 0.3:
        del out[chance.randrange(len(out)) :]
    if chance.random() < 0.1:
        place = chance.randrange(len(out) + 1)
        out[place:place] = out[: chance.randrange(200)]
    return bytes(out)


@pytest.mark.parametrize("kind", ["JPEG", "progressive", "PNG", "WEBP", "HEIC"])
def test_damaged_files_give_pixels_or_a_sentence_never_anything_else(kind):
    whole = {
        "JPEG": files.jpeg(),
        "progressive": files.jpeg(progressive=True),
        "HEIC": files.heic(),
        "PNG": files.saved(files.picture(), "PNG"),
        "WEBP": files.saved(files.picture(), "WEBP"),
    }[kind]
    chance = random.Random(f"damaged {kind}")
    answers = {"read": 0, "refused": 0}
    for _ in range(150):
        try:
            photo = decode.read_photo(flipped(whole, chance))
            assert photo.pixels.ndim == 3
            assert photo.pixels.dtype == np.uint8
            answers["read"] += 1
        except decode.UnreadablePhoto as refusal:
            answers["refused"] += refusal.sentence == decode.SENTENCES[refusal.code]
    assert sum(answers.values()) == 150
    assert answers["refused"] > 0


def test_unreadable_photo_is_an_answer_with_the_sentence():
    answer = advise(b"not a photo", Context("PNV", "HLSO", "raw"))
    assert answer["answer"] == "cannot_tell"
    assert answer["reasons"][0]["text"] == decode.SENTENCES["PHOTO-NOT-A-PICTURE"]


def test_small_pictures_carry_no_place_or_owner():
    exif = Image.Exif()
    exif[0x010F] = "camera of somebody"
    exif.get_ifd(0x8825)[1] = "S"
    pictures = decode.screen_pictures(files.saved(files.picture(4000, 3000), "JPEG", exif=exif))
    for data, side in ((pictures.thumb, 320), (pictures.screen, 1280)):
        with Image.open(io.BytesIO(data)) as image:
            assert max(image.size) == side
            assert len(image.getexif()) == 0


# VmHWM and not getrusage: the latter counts the test process that this one was forked from.
MEMORY = """
import sys
from imaging import decode
photo = decode.read_photo(open(sys.argv[1], "rb").read())
assert photo.width * photo.height >= 48_000_000
peak = next(line for line in open("/proc/self/status") if line.startswith("VmHWM"))
print(int(peak.split()[1]) / 1024)
"""


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_48_megapixels_stay_within_300_mb(kind, tmp_path):
    options = {"JPEG": {"quality": 90, "progressive": True}, "PNG": {"compress_level": 1}}[kind]
    file = tmp_path / "large"
    file.write_bytes(files.saved(files.picture(8000, 6000), kind, **options))
    command = [sys.executable, "-c", MEMORY, str(file)]
    run = subprocess.run(command, cwd=BASE, capture_output=True, text=True, timeout=120)
    assert run.returncode == 0, run.stderr
    assert float(run.stdout) < 300


READ_IT = """
import sys
from imaging import decode
photo = decode.read_photo(open(sys.argv[1], "rb").read())
print(photo.format, photo.width, photo.height)
"""


def two_pictures() -> bytes:
    """A two-picture JPEG (CIPA DC-007, multi-picture format), as phones write for depth and HDR."""
    picture = files.picture()
    return files.saved(picture, "MPO", save_all=True, append_images=[picture.copy()])


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (two_pictures(), "JPEG"),
        (files.jpeg(), "JPEG"),
        (files.saved(files.picture(), "PNG"), "PNG"),
        (files.saved(files.picture(), "WEBP"), "WEBP"),
        (files.heic(), "HEIF"),
    ],
    ids=["two-picture JPEG", "JPEG", "PNG", "WebP", "HEIC"],
)
def test_first_photo_of_a_fresh_worker_is_read(data, kind, tmp_path):
    """A new process has loaded none of Pillow's readers yet."""
    file = tmp_path / "photo"
    file.write_bytes(data)
    command = [sys.executable, "-c", READ_IT, str(file)]
    run = subprocess.run(command, cwd=BASE, capture_output=True, text=True, timeout=120)
    assert run.stdout.split() == [kind, "400", "300"], run.stderr
