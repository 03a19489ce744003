"""Picture files of every awkward kind, made here and named for what is odd about them."""

import io
import struct
import zlib

import cv2
import numpy as np
import pillow_heif
from PIL import Image, ImageCms

from imaging.colour import LINEAR_OF_LEVEL, lab_of_linear


def picture(width: int = 400, height: int = 300) -> Image.Image:
    """Red top left, green top right, blue bottom left, grey bottom right."""
    pixels = np.full((height, width, 3), 128, np.uint8)
    pixels[: height // 2, : width // 2] = (220, 30, 30)
    pixels[: height // 2, width // 2 :] = (30, 200, 40)
    pixels[height // 2 :, : width // 2] = (30, 40, 220)
    return Image.fromarray(pixels)


def saved(image: Image.Image, kind: str, **options) -> bytes:
    """The picture as file bytes."""
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def jpeg(**options) -> bytes:
    """An ordinary JPEG."""
    return saved(picture(), "JPEG", quality=92, **options)


def turned_jpeg(orientation: int) -> bytes:
    """A JPEG that says how to turn it; upright it is `picture()`."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    undo = {
        1: None,
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[orientation]
    image = picture() if undo is None else picture().transpose(undo)
    return saved(image, "JPEG", quality=95, exif=exif)


def heic() -> bytes:
    """A HEIC picture."""
    out = io.BytesIO()
    pillow_heif.from_pillow(picture()).save(out, quality=90)
    return out.getvalue()


def animated(kind: str) -> bytes:
    """A moving picture."""
    other = Image.new("RGB", (400, 300), (1, 2, 3))
    return saved(picture(), kind, save_all=True, append_images=[other], duration=50)


def swapped_profile_jpeg() -> bytes:
    """A JPEG whose profile says that its primaries are not those of sRGB (Lab-built, by LittleCMS)."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))
    return saved(picture(), "JPEG", quality=95, icc_profile=profile.tobytes())


def png_with_size(width: int, height: int) -> bytes:
    """A PNG whose header claims that size and that holds nothing more."""
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunk = b"IHDR" + header
    end = b"IEND"
    return (
        b"\x89PNG\r\n\x1a\n"
        + struct.pack(">I", 13)
        + chunk
        + struct.pack(">I", zlib.crc32(chunk))
        + struct.pack(">I", 0)
        + end
        + struct.pack(">I", zlib.crc32(end))
    )


def jpeg_with_size(width: int, height: int) -> bytes:
    """A JPEG whose header lies about its size."""
    data = bytearray(jpeg())
    place = data.find(b"\xff\xc0")
    data[place + 5 : place + 9] = struct.pack(">HH", height, width)
    return bytes(data)


def lab_of_srgb(pixels: np.ndarray) -> np.ndarray:
    """Lab of sRGB pixels (BGR, uint8), by the project's table of levels and its conversion of linear light."""
    return lab_of_linear(cv2.LUT(pixels, LINEAR_OF_LEVEL.astype(np.float32)))
