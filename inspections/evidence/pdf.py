"""The evidence page as a PDF, A4 or Letter: tagged, with alternative texts (PDF/UA-1), from the same parts as the page.

Typst sets it; compiler and fonts come in a wheel, nothing of the system is needed. Photos go in smaller, so that twelve
of them stay under 3 MB. A script that the wheel's fonts do not have (Chinese, say) is set in a font of the system
where there is one; else the PDF is made without the check for PDF/UA, and such signs are missing in it.
Source: ISO 14289-1 (PDF/UA-1), as the compiler checks it.
"""
import io
import json
import re
from dataclasses import asdict
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from PIL import Image, ImageOps

from inspections.evidence.found_page import Found
from inspections.evidence.models import SharedCopy
from inspections.evidence.page import LinePage
from inspections.evidence.photo_page import Shot
from inspections.evidence.sharing import read_shared
from inspections.messages import message
from inspections.trade.wording import typeset

TEMPLATE = Path(__file__).with_name("evidence.typ")
PAPERS = {"a4": "a4", "letter": "us-letter"}
MOST_PHOTO_BYTES = 2_400_000
#: Longest side and quality, tried until all photos together fit.
SIZES = ((1000, 72), (800, 66), (640, 60), (480, 50), (320, 40))
STROKES = ('<svg xmlns="http://www.w3.org/2000/svg" viewBox="-10 -10 620 220" width="620" height="220">{lines}</svg>')
STROKE = '<polyline points="{points}" fill="none" stroke="#000" stroke-width="4" stroke-linecap="round"/>'
LOG_STYLE = """<style>svg{font:13px sans-serif}.curve{fill:none;stroke:#0d5c63;stroke-width:2}.dot{fill:#0d5c63}
.outside{fill:#ddd}.warm{fill:#a3251b;fill-opacity:.25;stroke:#a3251b}.gap{fill:none;stroke:#444;stroke-dasharray:2 4}
.step{stroke:#ccc}.bound{stroke:#a3251b;stroke-dasharray:7 4}.moment{stroke:#000}.tick{stroke:#444}
.scale{text-anchor:end}.label,.inside,.time{text-anchor:middle}</style>"""


def pdf_of(page: dict[str, Any], paper: str) -> bytes:
    """The PDF of an evidence page.

    Parameters
    ----------
    page : dict
        As ``page.page_of`` gives it.
    paper : {"a4", "letter"}

    Raises
    ------
    FileNotFoundError
        A photo's file is gone.
    """
    import typst

    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "evidence.typ").write_bytes(TEMPLATE.read_bytes())
        told = _told(page, folder) | {"paper": PAPERS[paper]}
        (folder / "data.json").write_text(json.dumps(told), encoding="utf-8")
        source = str(folder / "evidence.typ")
        try:
            return bytes(typst.compile(source, root=str(folder), format="pdf", pdf_standards="ua-1"))
        except typst.TypstError as trouble:
            if "could not be displayed" not in str(trouble):
                raise
            return bytes(typst.compile(source, root=str(folder), format="pdf"))


def _told(page: dict[str, Any], folder: Path) -> dict[str, Any]:
    record, document, seal = page["record"], page["document"], page["seal"]
    shown = [shot for line in page["lines"] for one in line.found for shot in one.photos]
    shown += [shot for one in page["vehicle_found"] for shot in one.photos]
    shown += [shot for line in page["lines"] for shot in line.photos] + page["other_photos"]
    files = _pictures([shot for shot in shown if shot.shared_sha256], folder)
    return {
        "title": f"Docket {document['docket_number']}: evidence of a delivery", "installation": record["installation"],
        "is_demo": page["is_demo"], "zone": page["zone"], "signed": page["signed"],
        "seal": {"number": seal.number},
        "facts": [["Order", record.get("order_number") or "none named at receiving"],
                  ["From", record["supplier"]["name"]], ["To", record["site"]["name"]], ["Arrived", page["arrived"]],
                  ["Judged by", page["limits"]], *([name, typeset(value)] for name, value in page["vehicle"])],
        "vehicle_found": [_found(one, files) for one in page["vehicle_found"]],
        "lines": [_line(line, files) for line in page["lines"]],
        "other_photos": [_shot(shot, files) for shot in page["other_photos"]],
        "wording": typeset(page["wording"]), "noticed": page["noticed"],
        "signatures": [_signature(one, number, folder) for number, one in enumerate(page["signatures"])],
        "logs": [_log(log, number, folder) for number, log in enumerate(page["logs"])],
        "later": [_later(one) for one in page["addenda"]],
        "claims": [f"Claim {one['number']} on line {one['line']}: {one['entries']} entries, on the page itself"
                   for one in page["claims"]],
        "codes": [["Hash of this seal (SHA-256)", seal.sha256], ["Hash of the sealed record", seal.content_sha256],
                  ["Hash of the seal before it", seal.previous_sha256], ["Signature (Ed25519)", seal.signature],
                  ["Number of the key", seal.public_key_id],
                  ["Latest seal of this delivery", f"{page['latest'].number}: {page['latest'].sha256}"]],
    }


def _line(line: LinePage, files: dict[str, str]) -> dict[str, Any]:
    because = "As the limits suggest." if not line.departs_because else (
        f"The limits suggested: {line.suggested}. The receiver decided otherwise: “{line.departs_because}”")
    return {
        "number": line.number, "name": line.name, "decided": line.decided, "because": because, "apart": line.apart,
        "split": ", ".join(f"{count} {text}" for count, text, _ in line.split),
        "ordered": [[name, typeset(value)] for name, value in line.ordered], "sampling": typeset(line.sampling),
        "found": [_found(one, files) for one in line.found], "notes": [typeset(note) for note in line.notes],
        "photos": [_shot(shot, files) for shot in line.photos],
        "cartons": [{
            **asdict(carton), "position": str(carton.position or "without a position"), "note": carton.note or "",
            "within": typeset("; ".join(carton.within)), "not_checked": ", ".join(carton.not_checked),
            "checks": [{"name": _capital(check.name), "found": typeset(check.found or "–"),
                        "limit": typeset(". ".join(filter(None, [check.limit or "–", _capital(check.whose)]))),
                        "outcome": typeset(". ".join(filter(None, [check.state_words, check.why])))}
                       for check in carton.checks],
        } for carton in line.cartons],
    }


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _found(one: Found, files: dict[str, str]) -> dict[str, Any]:
    return {
        "severity": _capital(one.severity), "text": typeset(one.text),
        "limit": typeset(one.limit), "numbers": typeset(one.numbers), "whose": typeset(one.whose),
        "distance": typeset(_capital(one.distance) + "." if one.distance else ""),
        "words": typeset(one.words), "photos": [_shot(shot, files) for shot in one.photos],
        "above": ", ".join(f"photo {shot.number}" for shot in one.above),
    }


def _shot(shot: Shot, files: dict[str, str]) -> dict[str, str]:
    of = f", carton {shot.carton}" if shot.carton else ""
    advice = [f"Advice by machine, no finding: {given.words}" for given in shot.answers]
    return {"alt": f"Photo {shot.number}: {shot.purpose.lower()}{of}", "taken": shot.taken,
            "said": typeset(" ".join(advice)), "file": files.get(shot.sha256, ""), "unreadable": shot.unreadable}


def _pictures(shots: list[Shot], folder: Path) -> dict[str, str]:
    """Photos as smaller JPEGs in the folder, by hash; the largest of ``SIZES`` at which all fit together."""
    whole = {shot.sha256: read_shared(SharedCopy.objects.get(pk=shot.sha256)) for shot in shots}
    made: dict[str, bytes] = {}
    for side, quality in SIZES:
        made = {sha256: _smaller(content, side, quality) for sha256, content in whole.items()}
        if sum(map(len, made.values())) <= MOST_PHOTO_BYTES:
            break
    names = {sha256: f"photo-{number}.jpg" for number, sha256 in enumerate(made)}
    for sha256, content in made.items():
        (folder / names[sha256]).write_bytes(content)
    return names


def _smaller(content: bytes, side: int, quality: int) -> bytes:
    with Image.open(io.BytesIO(content)) as picture:
        picture.draft("RGB", (side * 2, side * 2))
        upright = ImageOps.exif_transpose(picture).convert("RGB")
    upright.thumbnail((side, side))
    out = io.BytesIO()
    upright.save(out, "JPEG", quality=quality)
    return out.getvalue()


def _signature(one: dict[str, Any], number: int, folder: Path) -> dict[str, str]:
    told = ", ".join(filter(None, [f"{one['title']}: {one['name']}" if one["name"] else one["title"], one["at"]]))
    file = ""
    if one["strokes"]:
        file = f"signature-{number}.svg"
        lines = "".join(STROKE.format(points=points) for points in one["strokes"])
        (folder / file).write_text(STROKES.format(lines=lines), encoding="utf-8")
    reason = f"Did not sign: {one['reason']}" if one["has_refused"] else "No signature."
    words = message("evidence-drivers-words", words=one["words"]) if one["words"] else ""
    return {"alt": f"Signature of {told}" if file else told, "file": file, "reason": reason, "words": words}


def _log(log: dict[str, Any], number: int, folder: Path) -> dict[str, Any]:
    wide = re.search(r"<svg[^>]*class=\"wide\".*?</svg>", str(log["drawings"]), re.S)
    file = ""
    if wide:
        file = f"log-{number}.svg"
        drawn = re.sub(r"(<svg)([^>]*>)", rf'\1 xmlns="http://www.w3.org/2000/svg"\2{LOG_STYLE}', wide[0], count=1)
        (folder / file).write_text(drawn, encoding="utf-8")
    reading = log["reading"]
    return {"name": log["file_name"], "summary": typeset(reading["summary"]), "file": file,
            "remarks": [typeset(remark["text"]) for remark in reading["remarks"]]}


def _later(one: dict[str, Any]) -> dict[str, Any]:
    said = [f"{put['count']} of line {put['line']} in {', '.join(filter(None, [put['freezer'], put['position']]))}: "
            f"{put['liner']}, {put['minutes']}." for put in one["cartons"]]
    said += [put["text"] for put in one["apart"]]
    said += [f"Air in the freezer: {typeset(one['air'])}."] if one["air"] else []
    said += [text for text in (one["text"], one["reason"] and f"Reason: {one['reason']}") if text]
    when = ", ".join(filter(None, [one["at"], one["by"]]))
    return {"title": one["title"], "when": f"{when}. Seal {one['seal'].number}.",
            "said": said or ["Nothing went into the freezer: all cartons were refused."]}
