"""The answers of the photo advice as evidence words them, and which of them it shows."""
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from imaging.advice import measured
from inspections.records.models import Advisory
from inspections.records.photo_answers import Answers, NoAdvice
from inspections.trade.wording import shown_measure

ANSWERS = {
    "darkening_seen": "Darkening seen", "none_seen": "No darkening seen", "cannot_tell": "Cannot tell from this photo",
    "look_here": "The darkest places are framed; no answer is given",
}


@dataclass(frozen=True)
class GivenAdvice:
    """One answer to a photo, in words, and whether it was there when the delivery was signed.

    ``tried`` tells what the method was measured to be worth where it was used as shipped, else it is empty; ``at`` is
    when it was given; ``in_full`` is False of those that are folded away.
    """

    id: str
    words: str
    reasons: list[str]
    method: str
    made_by: str
    tried: str
    at: datetime
    when: str
    in_full: bool
    has_overlay: bool
    has_histogram: bool


def given_advice(answers: Answers, signed: datetime) -> list[GivenAdvice] | str:
    """Every answer, newest first, empty while none has come; the sentence where advice is switched off.

    Two of them are shown in full: the newest and, where it is another, the one that was there at signing.
    """
    if isinstance(answers, NoAdvice):
        return answers.sentence if answers.is_switched_off else []
    before = [one for one in answers if one.created_at <= signed]
    in_full = [*answers[-1:], *before[-1:]]
    return [_given(one, one in before, bool(before), in_full=one in in_full) for one in reversed(answers)]


def _given(one: Advisory, was_there: bool, was_any: bool, *, in_full: bool) -> GivenAdvice:
    when = "This answer was there when the delivery was signed."
    if not was_there:
        when = "This answer came after the delivery was signed" + (", from looking again." if was_any else ".")
    return GivenAdvice(
        id=str(one.pk), words=advice_words(one), reasons=[reason["text"] for reason in one.body.get("reasons", [])],
        method=one.method_version, made_by=f"method {one.method_version}, {_compared_with(one)}",
        tried=real_figures() if _is_as_shipped(one.body) else "", at=one.created_at, when=when, in_full=in_full,
        has_overlay=bool(one.overlay_name), has_histogram=bool(one.histogram_name),
    )


def _compared_with(one: Advisory) -> str:
    """What the photo was compared with: a cut-off, or in earlier methods a look of sound goods."""
    grounds = one.body.get("baseline") or {}
    photos = grounds.get("site_photos", 0) + grounds.get("group_photos", 0)
    if "learnt" in one.body:
        return _cut_off(one.body)
    told = {
        "site": f"compared with sound goods of the same kind at this site ({photos} photos of accepted cartons)",
        "group": f"compared with sound goods of the same kind in this group ({photos} photos of accepted cartons)",
    }.get(grounds.get("from", ""), "compared with the documented look of sound goods of the same kind")
    return f"{told}, {one.baseline_version}"


def _is_as_shipped(body: dict[str, Any]) -> bool:
    return "learnt" in body and body["learnt"]["from"] != "findings"


def _cut_off(body: dict[str, Any]) -> str:
    learnt = body["learnt"]
    if not _is_as_shipped(body):
        findings = learnt["sound"] + learnt["spotted"]
        return f"cut-off {body['cut_off']:.2f}, learnt from what receivers found in {findings} cartons of these goods"
    return f"cut-off {body['cut_off']:.2f}, as shipped"


def real_figures() -> str:
    """What the method was measured to be worth, and on how many real photographs."""
    known = measured()
    told = [
        f"on {one['marked']} marked and {one['none']} sound photographs it put the marked one first with a chance of "
        f"{one['auc']:.2f} ({one['auc_low']:.2f} to {one['auc_high']:.2f}){kind}"
        for kind, one in ((" while it was being made", known["open"]), (", kept aside", known["kept_aside"].get("raw")))
        if one
    ]
    return f"The method was tried on real photographs: {'; '.join(told)}." if told else ""


def advice_words(given: Advisory) -> str:
    """What the machine's advice says: pieces counted, or in earlier methods a share with its range."""
    told = ANSWERS[given.answer]
    if given.answer == "darkening_seen" and given.body.get("dark_pieces"):
        dark, pieces = given.body["dark_pieces"], given.body["pieces"]
        at_head = f", {given.body['at_head']} of them at the head" if given.body.get("at_head") else ""
        return f"{dark} of {pieces} {'piece looks' if pieces == 1 else 'pieces look'} darkened{at_head}."
    if given.answer == "darkening_seen" and given.share is not None:
        told += f" on about {shown_measure(given.share, 'share')} of the prawns’ surface"
        if given.share_low is not None and given.share_high is not None:
            told += f" ({shown_measure(given.share_low, 'share')} to {shown_measure(given.share_high, 'share')})"
    return told + "."
