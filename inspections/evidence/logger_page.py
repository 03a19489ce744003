"""A logger file as a supplier reads it: figures, findings and drawing, out of what was sealed with it."""
from typing import Any
from zoneinfo import ZoneInfo

from django.template.loader import render_to_string
from django.utils.safestring import SafeString, mark_safe

from inspections.evidence.addendum_page import moment_words
from inspections.evidence.logger_drawing import drawing_of
from inspections.evidence.models import Seal
from inspections.evidence.seals import content_of
from inspections.trade.reasons import source_words
from inspections.trade.wording import WORDS, filled, shown, shown_measure

#: Widths and heights of the two drawings: one for a phone, one for a desk and for paper.
PHONE, DESK = (350.0, 300.0), (760.0, 320.0)


def logger_pages(seals: list[Seal], zone: ZoneInfo) -> list[dict[str, Any]]:
    """Logger files in words, in the order sealed; ``is_read_anew`` where a later one reads the same file otherwise."""
    contents = [content_of(seal) for seal in seals]
    last = {content["logger_file"]["sha256"]: place for place, content in enumerate(contents)}
    return [
        {**_page(seal, content, zone), "is_read_anew": last[content["logger_file"]["sha256"]] != place}
        for place, (seal, content) in enumerate(zip(seals, contents, strict=True))
    ]


def _page(seal: Seal, content: dict[str, Any], zone: ZoneInfo) -> dict[str, Any]:
    file, reading = content["logger_file"], unbroken(content["reading"])
    counted = reading["counted"]
    return {
        **file,
        "added": moment_words(file["at"], zone),
        "clock": clock_words(file["answers"]),
        "reading": reading,
        "figures": _figures(counted) if counted else [],
        "limits": [_limit(one) for one in counted["limits"]] if counted else [],
        "life": counted["life"] if counted else [],
        "sources": _sources(reading["explain"]),
        "drawings": drawings_of(reading),
        "shaded_limit": _shaded_limit(reading["plot"]),
        "seal": seal,
    }


def drawings_of(reading: dict[str, Any]) -> SafeString:
    """Both drawings of a log as SVG, of classes ``phone`` and ``wide``; a style sheet shows the one that fits."""
    reading = unbroken(reading)
    return mark_safe("".join(  # noqa: S308 - made by the template, which escapes every word
        render_to_string("evidence/log_drawing.html", {
            "kind": kind, "drawing": drawing_of(reading["plot"], *size), "title": reading["summary"],
        })
        for kind, size in (("phone", PHONE), ("wide", DESK))
    ))


def unbroken(value: Any) -> Any:
    """The same JSON with numbers and their °C kept on one line."""
    if isinstance(value, dict):
        return {key: unbroken(each) for key, each in value.items()}
    if isinstance(value, list):
        return [unbroken(each) for each in value]
    return value.replace(" °C", "\u00a0°C") if isinstance(value, str) else value


def clock_words(answers: dict[str, Any]) -> str:
    """Whose clock the times are by, and what else had to be told."""
    told = "The file’s times have no zone; they were taken to be by the clock of "
    zone = f"{told}{answers['zone']}, at the offset of the first reading." if "zone" in answers else (
        "The file’s times carry their zone.")  # fmt: skip
    unit = f" Its unit was told: °{answers['unit']}." if "unit" in answers else ""
    order = " Told: the day comes first." if answers.get("day_order") == "day_first" else (
        " Told: the month comes first." if "day_order" in answers else "")  # fmt: skip
    return zone + unit + order


def _figures(counted: dict[str, Any]) -> list[tuple[str, str]]:
    return [
        ("Coldest", shown_measure(counted["coldest_c"], "C")),
        ("Warmest", shown_measure(counted["warmest_c"], "C")),
        ("Mean kinetic temperature", shown_measure(counted["mean_kinetic_c"], "C")),
        ("Without a reading", f"{shown(counted['gap_minutes'], 0)} min"),
    ]


def _limit(one: dict[str, Any]) -> dict[str, Any]:
    sources = [_source(basis) for basis in one["basis"]]
    return {
        **one,
        "limit": shown_measure(one["limit_c"], "C"),
        "names": ", ".join(one["names"]),
        "sources": list(dict.fromkeys(sources)),
        "unlisted": one["count"] - len(one["excursions"]),
    }


def _sources(explain: dict[str, Any]) -> list[tuple[str, str]]:
    """Formula and source of each figure."""
    return [(explain[name], _source(explain[f"{name}_basis"])) for name in ("mean_kinetic", "life")]


def _source(basis: dict[str, Any]) -> str:
    return filled(WORDS["why"]["source"], {"source": source_words(basis)})


def _shaded_limit(plot: dict[str, Any]) -> str:
    return shown_measure(plot["shaded"][0]["limit_c"], "C") if plot["shaded"] else ""
