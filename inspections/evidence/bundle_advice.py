"""What a machine made of the photos, for the bundle: every answer as it was given, with its pictures, beside the seal.

::

    photo-advice/README.txt           what this is, how it was made, and that it is not sealed
    photo-advice/answers.json         each photo of the record, and every answer to it, oldest first
    photo-advice/<SHA-256>.jpg .png   pictures that belong to an answer, each named by its own hash

Advice is given after signing, again by newer methods, and never sealed. Hashes here only tie pictures to answers.
"""
import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from inspections.evidence.advice import advice_words
from inspections.evidence.canonical import sha256_hex
from inspections.evidence.statement import utc_text
from inspections.records import storage
from inspections.records.models import Advisory
from inspections.records.photo_answers import NoAdvice, answers_in

FOLDER = "photo-advice/"
ANSWERS = f"{FOLDER}answers.json"
GONE = "This picture was made, but its file is not kept here any more. The answer stands as it was given."

README = """WHAT A MACHINE MADE OF THE PHOTOS
This is advice. It is NOT part of the sealed record: no seal, hash or signature of this bundle covers this folder, and
nothing here shows whether it was altered. It decided nothing. The receiver decided, and the verdict in record.json was
reckoned without it. If you want to know what the goods looked like, look at the photos.

What is here
  answers.json     each photo of the record that was looked at, and every answer to it, oldest first, as it was
                   given: a newer method looks again and leaves the earlier answers standing. "was_there_at_signing"
                   says whether the receiver could have read it. A download made later may hold more answers.
  <SHA-256>.jpg    the photo with the pieces outlined and the darkest places framed (methods before pieces-1: a white
                   line around what was read as prawn, and violet where it looked dark)
  <SHA-256>.png    methods before pieces-1 only: how light the prawns are, from black (0) to white (100)
                   Each picture is named by its own SHA-256. answers.json says which answer it belongs to.

How it was made
A program outlined each piece on its plain ground and looked for the place where a small disc is darkest against the
same piece's own shell around it ("figure"). "pieces" and "dark_pieces" count pieces; a piece looks darkened where its
figure reaches "cut_off". "would_say" is the answer at that cut-off: darkening_seen, none_seen or cannot_tell. It is
given as "answer" only where the method has been shown to tell on real photographs; else "look_here": frames alone.
"method_version" names the version of the program. Methods before pieces-1 gave a "share" of the surface instead, with
a range. Colour and light are all that it looked at.

What it cannot do
It may be wrong, both ways. Shade, wet shell, dirt and a naturally dark kind look like darkening; ice and glare hide
it. A photo shows some of the pieces. It knows nothing of smell, taste, temperature or safety.
"""


@dataclass
class AdvicePart:
    """The folder: ``answers`` as written to ANSWERS, and the pictures by their names in the bundle."""

    answers: list[dict[str, Any]] = field(default_factory=list)
    pictures: dict[str, bytes] = field(default_factory=dict)

    @property
    def has_answers(self) -> bool:
        return any(photo["answers"] for photo in self.answers)

    def files(self) -> Iterator[tuple[str, bytes]]:
        """Name and content of each file; none where no photo was answered."""
        if self.has_answers:
            yield f"{FOLDER}README.txt", README.encode()
            yield ANSWERS, json.dumps({"photos": self.answers}, indent=1, ensure_ascii=False).encode()
            yield from self.pictures.items()


def advice_part(record: dict[str, Any]) -> AdvicePart:
    """Every answer to the photos of a sealed record.

    Parameters
    ----------
    record : dict
        The sealed content of a delivery.
    """
    part, signed = AdvicePart(), datetime.fromisoformat(record["signed_at"])
    shared = {entry["sha256"]: entry["shared_sha256"] for entry in record["photos"]}
    for sha256, answers in answers_in(record["document"]).items():
        part.answers.append({
            "sha256": sha256,
            "shared_sha256": shared[sha256],
            "no_advice": answers.sentence if isinstance(answers, NoAdvice) else None,
            "answers": [] if isinstance(answers, NoAdvice) else [_answer(part, one, signed) for one in answers],
        })
    return part


def _answer(part: AdvicePart, one: Advisory, signed: datetime) -> dict[str, Any]:
    return {
        "in_words": advice_words(one),
        "given_at": utc_text(one.created_at),
        "was_there_at_signing": one.created_at <= signed,
        "told_to_the_program": one.context,
        "answer_as_given": one.body,
        "overlay": _picture(part, one.overlay_name, "jpg"),
        "histogram": _picture(part, one.histogram_name, "png"),
    }


def _picture(part: AdvicePart, stored: str, ending: str) -> dict[str, Any] | None:
    if not stored:
        return None
    try:
        content = storage.read(stored)
    except FileNotFoundError:
        # The photos and the record are the evidence; a lost picture of the advice must not hold them back.
        return {"file": None, "why": GONE}
    name = f"{FOLDER}{sha256_hex(content)}.{ending}"
    part.pictures[name] = content
    return {"file": name}
