"""Files that come with an entry of a claim: photos and data-logger files, and nothing else.

Whoever sends them, supplier or kitchen, all of it is taken for hostile: the kind is read off the bytes and never
believed; a picture is refused unread when its head tells of more pixels than a camera takes; what is shown is
a picture made anew from it, never the file itself; the file is only ever offered to be saved. What is neither a
photo nor a table that a logger writes (a page, a drawing with a script in it, an archive) is not kept. A photo of the
kitchen's is kept without the notes that tell where or by whom it was taken, as all that leaves the house.
"""
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from django.core.files.uploadedfile import UploadedFile

from imaging.decode import screen_pictures
from imaging.wholeness import why_unreadable
from inspections.errors import ApiProblem, Unprocessable
from inspections.evidence.canonical import sha256_hex
from inspections.evidence.strip_location import tells_place, without_place
from inspections.records import storage
from inspections.records.models import Delivery
from inspections.records.services.logger_file import read_logger_file
from inspections.records.services.photo import kind_and_size
from inspections.user_files import SHOWN

MOST_FILES, LARGEST = 6, 7 * 1024 * 1024
#: A little more than the largest phone camera of today; a bomb tells far more in its head.
MOST_PIXELS = 120_000_000
NAME_LENGTH = 80
#: Answers that a logger's file may need.
TOLD = ("zone", "unit", "day_order", "column")


@dataclass(frozen=True)
class SentFile:
    """A file that may be kept: what it is by its bytes, what a logger's was read to say, pictures to show of it."""

    name: str
    content: bytes
    kind: str
    content_type: str
    pictures: dict[str, bytes] = field(default_factory=dict)
    answers: dict[str, str] = field(default_factory=dict)
    reading: dict | None = None

    @property
    def sha256(self) -> str:
        return sha256_hex(self.content)

    def to_json(self) -> dict:
        """As it is sealed with its entry."""
        told = {"name": self.name, "sha256": self.sha256, "bytes": len(self.content), "kind": self.kind,
                "type": self.content_type}
        return told if self.reading is None else {**told, "answers": self.answers, "reading": self.reading}


def read_files(
    delivery: Delivery, files: Iterable[UploadedFile], told: Mapping[str, str], *, is_kitchens: bool = False
) -> list[SentFile]:
    """Look at what came; writes nothing.

    Parameters
    ----------
    told : mapping of str to str
        What a logger's file may need: the names of ``TOLD``.

    Raises
    ------
    Unprocessable
        CLAIM-FILES, CLAIM-FILE-KIND, CLAIM-FILE-PICTURE.
    ApiProblem
        413 CLAIM-FILE-LARGE.
    """
    files = [file for file in files if file.size]
    if len(files) > MOST_FILES:
        raise Unprocessable("CLAIM-FILES", most=MOST_FILES)
    told = {name: str(told.get(name) or "") for name in TOLD}
    return [_read(delivery, file, told, is_kitchens=is_kitchens) for file in files]


def keep_file(file: SentFile) -> None:
    """Write a file, and the pictures to show of it; returns when they are kept. A second call writes the same."""
    storage.put(storage.claim_file_name(file.sha256), file.content)
    for name, picture in file.pictures.items():
        storage.put(picture_name(file.sha256, name), picture)


def picture_name(sha256: str, size: str) -> str:
    """Where a picture lies that was made anew from a photo of a claim."""
    return f"{storage.claim_file_name(sha256)}-{size}"


def _read(delivery: Delivery, file: UploadedFile, told: Mapping[str, str], *, is_kitchens: bool) -> SentFile:
    name = plain_name(file.name or "")
    if file.size > LARGEST:
        raise ApiProblem("CLAIM-FILE-LARGE", status=413, name=name, most_mb=LARGEST // 1048576)
    content = file.read()
    content_type, width, height = kind_and_size(content)
    if content_type in SHOWN:
        if width * height > MOST_PIXELS or why_unreadable(content):
            raise Unprocessable("CLAIM-FILE-PICTURE", name=name)
        if is_kitchens and tells_place(content):
            content, content_type, _ = without_place(content)
        small = screen_pictures(content)
        return SentFile(name, content, "photo", content_type, {"thumb": small.thumb, "screen": small.screen})
    try:
        read = read_logger_file(delivery=delivery, content=content, told=told)
    except Unprocessable as refused:
        raise Unprocessable("CLAIM-FILE-KIND", name=name, why=str(refused)) from refused
    return SentFile(name, content, "logger", "text/csv", answers=read.answers, reading=read.reading)


def plain_name(name: str) -> str:
    """The last part of a file's name, without what no file name needs."""
    last = name.replace("\\", "/").rpartition("/")[2]
    return re.sub(r"[^\w .()+-]", "_", last)[:NAME_LENGTH].strip() or "file"
