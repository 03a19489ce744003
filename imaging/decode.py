"""Photo bytes to pixels of one size, upright and in sRGB; or one plain sentence why not.

Method: Pillow reads the header only (format, size, orientation, colour profile) and refuses what
cannot be a phone photo; the pixels are then decoded at 1/2, 1/4 or 1/8 scale where the format can
(JPEG), brought to about 1000 pixels, turned upright, and converted to sRGB by the photo's own
profile. The bytes given are never changed.
Does not hold: camera raw files, and HDR gain maps (the plain picture in such a file is read).
Sources: EXIF 2.3 orientation tag 0x0112; ICC.1 profiles through LittleCMS; IEC 61966-2-1.

UnreadablePhoto            a ValueError; `code`, `sentence`
    PHOTO-EMPTY PHOTO-TOO-LARGE PHOTO-NOT-A-PICTURE PHOTO-DAMAGED PHOTO-TOO-MANY-PIXELS
    PHOTO-TOO-SMALL PHOTO-MOVING PHOTO-PRINT-COLOURS
"""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass
from functools import lru_cache

import cv2
import numpy as np
import pillow_heif
from PIL import Image, ImageCms

pillow_heif.register_heif_opener(thumbnails=False, depth_images=False, aux_images=False)

ANALYSIS_SIDE = 1000  # px, longest side: fixed, because sharpness and spot sizes depend on it
MAX_BYTES = 40_000_000
# What each kind's reader can hold within 300 MB; phones make JPEG and HEIC.
MAX_PIXELS = {"JPEG": 66_000_000, "PNG": 50_000_000, "HEIF": 50_000_000, "WEBP": 40_000_000}
_LARGE_PNG = 20_000_000
MIN_SIDE = 16
MAX_RATIO = 20
_FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")  # two-picture JPEGs (MPO) open as JPEG

_SAFE = "Your other entries are saved."
SENTENCES = {
    "PHOTO-EMPTY": f"The photo file has nothing in it. {_SAFE} Take the photo again.",
    "PHOTO-TOO-LARGE": f"The photo file is larger than 40 MB. {_SAFE} Take it again at the normal photo setting.",
    "PHOTO-NOT-A-PICTURE": (
        f"The file could not be read as a picture. {_SAFE} Use a photo in JPEG, PNG, WebP or HEIC, or take it again."
    ),
    "PHOTO-DAMAGED": f"Part of the photo is missing or damaged. {_SAFE} Take the photo again.",
    "PHOTO-TOO-MANY-PIXELS": (
        "The photo is too large to read: at most 66 megapixels as JPEG, 50 as HEIC or PNG, 40 as WebP. "
        f"{_SAFE} Take it again at the normal photo setting."
    ),
    "PHOTO-TOO-SMALL": f"The picture is too small to show anything. {_SAFE} Take it again with the camera.",
    "PHOTO-MOVING": f"The file is a moving picture. {_SAFE} Take a still photo.",
    "PHOTO-PRINT-COLOURS": (
        f"The picture is saved in printing colours (CMYK), which do not show true colour here. {_SAFE} "
        "Take it again with the camera, or save it as an ordinary JPEG."
    ),
}


class UnreadablePhoto(ValueError):
    """A photo that cannot be read, with the code and the sentence for the person who took it."""

    def __init__(self, code: str):
        super().__init__(code)
        self.code = code
        self.sentence = SENTENCES[code]


@dataclass(frozen=True)
class Photo:
    """A photo made ready to be looked at.

    Attributes
    ----------
    pixels : ndarray of shape (rows, cols, 3), uint8
        BGR, sRGB, upright.
    width, height : int
        Of the photo as taken, upright, px.
    format : str
        JPEG, PNG, WEBP or HEIF.
    """

    pixels: np.ndarray
    width: int
    height: int
    format: str


@dataclass(frozen=True)
class _Header:
    format: str
    mode: str
    width: int
    height: int
    orientation: int
    profile: bytes | None
    has_alpha: bool


def read_photo(data: bytes, longest: int = ANALYSIS_SIDE) -> Photo:
    """Decode a photo for looking at.

    Parameters
    ----------
    data : bytes
        JPEG, PNG, WebP or HEIC. Not changed.
    longest : int
        Longest side wanted, px; a photo up to a tenth larger, or a smaller one, stays as it is.

    Returns
    -------
    Photo

    Raises
    ------
    UnreadablePhoto
        With the codes listed at the top of this file.
    """
    header = read_header(data)
    pixels = _decode(data, header, longest)
    height, width = header.height, header.width
    expected = width / height
    if abs(pixels.shape[1] / pixels.shape[0] / expected - 1) > 0.1:
        raise UnreadablePhoto("PHOTO-DAMAGED")
    pixels = _to_srgb(_shrink(pixels, longest), header)
    if header.orientation >= 5:
        width, height = height, width
    return Photo(_upright(pixels, header.orientation), width, height, header.format)


def read_header(data: bytes) -> _Header:
    """Format and size from the head of the file, or UnreadablePhoto; no picture is decoded."""
    if not data:
        raise UnreadablePhoto("PHOTO-EMPTY")
    if len(data) > MAX_BYTES:
        raise UnreadablePhoto("PHOTO-TOO-LARGE")
    if not _looks_like_a_picture(data[:16]):
        raise UnreadablePhoto("PHOTO-NOT-A-PICTURE")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            with Image.open(io.BytesIO(data), formats=_FORMATS) as image:
                return _checked_header(image)
        except UnreadablePhoto:
            raise
        except Image.DecompressionBombError:
            raise UnreadablePhoto("PHOTO-TOO-MANY-PIXELS") from None
        except Exception:  # Pillow's plugins raise almost anything on damaged files
            raise UnreadablePhoto("PHOTO-DAMAGED") from None


def _looks_like_a_picture(start: bytes) -> bool:
    return (
        start.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"))
        or (start[:4] == b"RIFF" and start[8:12] == b"WEBP")
        or start[4:8] == b"ftyp"
    )


def _checked_header(image: Image.Image) -> _Header:
    kind = "JPEG" if image.format == "MPO" else image.format or ""
    width, height = image.size
    if width * height > MAX_PIXELS[kind]:
        raise UnreadablePhoto("PHOTO-TOO-MANY-PIXELS")
    if min(width, height) < MIN_SIDE or max(width, height) > MAX_RATIO * min(width, height):
        raise UnreadablePhoto("PHOTO-TOO-SMALL")
    if kind in ("PNG", "WEBP") and getattr(image, "is_animated", False):
        raise UnreadablePhoto("PHOTO-MOVING")
    if image.mode in ("CMYK", "YCCK"):
        raise UnreadablePhoto("PHOTO-PRINT-COLOURS")
    has_alpha = "A" in image.mode or "transparency" in image.info
    orientation = _orientation(image)
    return _Header(kind, image.mode, width, height, orientation, image.info.get("icc_profile"), has_alpha)


def _orientation(image: Image.Image) -> int:
    if image.format == "HEIF":
        return 1  # the HEIF reader turns the picture itself
    try:
        value = int(image.getexif().get(0x0112, 1))
    except Exception:  # damaged EXIF says nothing about the picture itself
        return 1
    return value if 1 <= value <= 8 else 1


def _decode(data: bytes, header: _Header, longest: int) -> np.ndarray:
    try:
        if header.format == "HEIF":
            return _decode_heif(data)
        if header.format == "PNG" and header.width * header.height > _LARGE_PNG and header.mode in ("RGB", "RGBA"):
            return _decode_large_png(data, header, longest)
        flags = _reading_flags(header, longest)
        pixels = cv2.imdecode(np.frombuffer(data, np.uint8), flags)
    except UnreadablePhoto:
        raise
    except (cv2.error, MemoryError, ValueError, OSError, RuntimeError, EOFError, SyntaxError):
        raise UnreadablePhoto("PHOTO-DAMAGED") from None
    if pixels is None or pixels.size == 0:
        raise UnreadablePhoto("PHOTO-DAMAGED")
    return _without_alpha(pixels) if header.has_alpha else pixels


def _reading_flags(header: _Header, longest: int) -> int:
    if header.has_alpha:
        return cv2.IMREAD_UNCHANGED
    flags = cv2.IMREAD_COLOR
    if header.format == "JPEG":
        side = max(header.width, header.height)
        for factor, reduced in (
            (8, cv2.IMREAD_REDUCED_COLOR_8),
            (4, cv2.IMREAD_REDUCED_COLOR_4),
            (2, cv2.IMREAD_REDUCED_COLOR_2),
        ):
            if side / factor >= 0.95 * longest:
                flags = reduced
                break
    return flags | cv2.IMREAD_IGNORE_ORIENTATION


def _decode_heif(data: bytes) -> np.ndarray:
    image = pillow_heif.open_heif(data, convert_hdr_to_8bit=True, bgr_mode=True)
    return _without_alpha(np.asarray(image))


def _decode_large_png(data: bytes, header: _Header, longest: int) -> np.ndarray:
    """Averaged down inside Pillow, which holds one copy of the whole picture where OpenCV holds two."""
    factor = max(1, max(header.width, header.height) // longest)
    with Image.open(io.BytesIO(data), formats=("PNG",)) as image:
        small = np.asarray(image.reduce(factor))
    code = cv2.COLOR_RGBA2BGRA if small.shape[2] == 4 else cv2.COLOR_RGB2BGR
    return cv2.cvtColor(small, code)


def _without_alpha(pixels: np.ndarray) -> np.ndarray:
    if pixels.dtype == np.uint16:
        pixels = (pixels >> 8).astype(np.uint8)
    if pixels.ndim == 2:
        return cv2.cvtColor(pixels, cv2.COLOR_GRAY2BGR)
    if pixels.shape[2] == 3:
        return pixels
    # See-through parts are shown on white, as every viewer does.
    alpha = pixels[..., 3:].astype(np.uint16)
    mixed = (pixels[..., :3] * alpha + 255 * (255 - alpha) + 127) // 255
    return mixed.astype(np.uint8)


def _shrink(pixels: np.ndarray, longest: int) -> np.ndarray:
    rows, cols = pixels.shape[:2]
    scale = longest / max(rows, cols)
    if scale > 1 / 1.1:
        return np.ascontiguousarray(pixels)
    size = (max(1, round(cols * scale)), max(1, round(rows * scale)))
    return cv2.resize(pixels, size, interpolation=cv2.INTER_AREA)


def _to_srgb(pixels: np.ndarray, header: _Header) -> np.ndarray:
    if not header.profile or header.mode not in ("RGB", "RGBA", "P"):
        return pixels
    transform = _transform(header.profile)
    if transform is None:
        return pixels
    picture = Image.fromarray(cv2.cvtColor(pixels, cv2.COLOR_BGR2RGB))
    return cv2.cvtColor(np.asarray(ImageCms.applyTransform(picture, transform)), cv2.COLOR_RGB2BGR)


@lru_cache(maxsize=32)
def _transform(profile: bytes) -> ImageCms.ImageCmsTransform | None:
    """The way from a photo's own colour space to sRGB; None when it is sRGB already or unreadable."""
    try:
        own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        if own.profile.xcolor_space.strip() != "RGB" or "srgb" in ImageCms.getProfileDescription(own).lower():
            return None
        return ImageCms.buildTransform(own, ImageCms.createProfile("sRGB"), "RGB", "RGB")
    except Exception:  # a damaged profile: the picture is then read as sRGB, which is what viewers do
        return None


_TURNS = {3: cv2.ROTATE_180, 6: cv2.ROTATE_90_CLOCKWISE, 8: cv2.ROTATE_90_COUNTERCLOCKWISE}


def _upright(pixels: np.ndarray, orientation: int) -> np.ndarray:
    if orientation in _TURNS:
        return cv2.rotate(pixels, _TURNS[orientation])
    if orientation == 2:
        return cv2.flip(pixels, 1)
    if orientation == 4:
        return cv2.flip(pixels, 0)
    if orientation == 5:
        return cv2.transpose(pixels)
    if orientation == 7:
        return cv2.flip(cv2.transpose(pixels), -1)
    return pixels


@dataclass(frozen=True)
class Pictures:
    """Small pictures of a photo for screens: `thumb` 320 px, `screen` 1280 px, JPEG bytes."""

    thumb: bytes
    screen: bytes


def screen_pictures(data: bytes) -> Pictures:
    """Small upright sRGB copies without any of the photo's hidden data (place, owner, time).

    Raises
    ------
    UnreadablePhoto
    """
    pixels = _exactly(read_photo(data, 1280).pixels, 1280)
    return Pictures(encode_jpeg(_exactly(pixels, 320), 80), encode_jpeg(pixels, 82))


def _exactly(pixels: np.ndarray, longest: int) -> np.ndarray:
    rows, cols = pixels.shape[:2]
    scale = longest / max(rows, cols)
    if scale >= 1:
        return pixels
    return cv2.resize(pixels, (round(cols * scale), round(rows * scale)), interpolation=cv2.INTER_AREA)


def encode_jpeg(pixels: np.ndarray, quality: int) -> bytes:
    """BGR pixels, uint8, to JPEG bytes."""
    return cv2.imencode(".jpg", pixels, [cv2.IMWRITE_JPEG_QUALITY, quality])[1].tobytes()
