"""The advice that stands on a photo in the place where a document puts it."""
from dataclasses import dataclass
from datetime import datetime

from inspections.records.advising import SWITCHED_OFF, advice_contexts
from inspections.records.lookups import closed_without_advice
from inspections.records.models import Advisory, Job, JobState, Photo
from inspections.trade.wording import shown_measure

ANSWERS = {
    "darkening_seen": "Darkening seen", "none_seen": "No darkening seen", "cannot_tell": "Cannot tell from this photo",
}


@dataclass(frozen=True)
class GivenAdvice:
    """One answer to a photo, in words, and whether it was there when the delivery was signed."""

    id: str
    words: str
    reasons: list[str]
    made_by: str
    when: str
    has_overlay: bool
    has_histogram: bool


@dataclass(frozen=True)
class NoAdvice:
    """Why there is none and none will come by itself.

    ``code``: NOT-ANALYSED (the worker gave up), SWITCHED-OFF, or WAS-SWITCHED-OFF (while the photo waited).
    """

    code: str
    sentence: str

    @property
    def is_switched_off(self) -> bool:
        return self.code in {"SWITCHED-OFF", "WAS-SWITCHED-OFF"}


def advice_in(document: dict) -> dict[str, Advisory | NoAdvice | None]:
    """The latest advice on each photo that a document names.

    Returns
    -------
    dict of str to Advisory, NoAdvice or None
        By hash. None while it is being worked on or the photo is not here. Only advice given for this
        species, form and purpose counts.
    """
    return {sha256: given if isinstance(given, NoAdvice) else given[-1] if given else None
            for sha256, given in answers_in(document).items()}


def answers_in(document: dict) -> dict[str, list[Advisory] | NoAdvice]:
    """Every advice on each photo, oldest first: a newer method leaves the earlier answers standing."""
    told = advice_contexts(document)
    given: dict[str, list[Advisory]] = {}
    for advisory in Advisory.objects.filter(photo__in={entry["sha256"] for entry, _ in told}):
        given.setdefault(advisory.photo_id, []).append(advisory)
    closed = closed_without_advice(entry["sha256"] for entry, context in told if context is not None)
    return {entry["sha256"]: _answers(entry["sha256"], context, given, closed) for entry, context in told}


def _answers(
    sha256: str, context: dict | None, given: dict[str, list[Advisory]], closed: list[Job]
) -> list[Advisory] | NoAdvice:
    if context is None:
        return NoAdvice("SWITCHED-OFF", SWITCHED_OFF)
    found = [one for one in given.get(sha256, []) if one.context == context]
    ended = [job for job in closed if (job.subject["sha256"], job.subject.get("context")) == (sha256, context)]
    if found or not ended:
        return found
    code = "WAS-SWITCHED-OFF" if ended[-1].state == JobState.UNWANTED else "NOT-ANALYSED"
    return NoAdvice(code, ended[-1].sentence)


def given_advice(answers: list[Advisory] | NoAdvice, signed: datetime) -> list[GivenAdvice] | str:
    """The answers that evidence shows: the one that was there at signing and, where it is another, the newest.

    Returns
    -------
    list of GivenAdvice or str
        Newest first, empty while none has come; the sentence where advice is switched off.
    """
    if isinstance(answers, NoAdvice):
        return answers.sentence if answers.is_switched_off else []
    before = [one for one in answers if one.created_at <= signed]
    shown = dict.fromkeys([*answers[-1:], *before[-1:]])
    return [_given(one, one in before, bool(before)) for one in shown]


def _given(one: Advisory, was_there: bool, was_any: bool) -> GivenAdvice:
    when = "This answer was there when the delivery was signed."
    if not was_there:
        when = "This answer came after the delivery was signed" + (", from looking again." if was_any else ".")
    return GivenAdvice(
        id=str(one.pk), words=advice_words(one), reasons=[reason["text"] for reason in one.body.get("reasons", [])],
        made_by=f"method {one.method_version}, {_compared_with(one)}", when=when,
        has_overlay=bool(one.overlay_name), has_histogram=bool(one.histogram_name),
    )


def _compared_with(one: Advisory) -> str:
    """Which look of sound goods the photo was compared with."""
    grounds = one.body.get("baseline") or {}
    photos = grounds.get("site_photos", 0) + grounds.get("group_photos", 0)
    told = {
        "site": f"compared with sound goods of the same kind at this site ({photos} photos of accepted cartons)",
        "group": f"compared with sound goods of the same kind in this group ({photos} photos of accepted cartons)",
    }.get(grounds.get("from"), "compared with the documented look of sound goods of the same kind")
    return f"{told}, {one.baseline_version}"


def advice_words(given: Advisory) -> str:
    """What the machine's advice says, with its share and range."""
    told = ANSWERS[given.answer]
    if given.answer == "darkening_seen" and given.share is not None:
        told += f" on about {shown_measure(given.share, 'share')} of the prawns’ surface"
        if given.share_low is not None and given.share_high is not None:
            told += f" ({shown_measure(given.share_low, 'share')} to {shown_measure(given.share_high, 'share')})"
    return told + "."


def is_here(sha256: str) -> bool:
    """Whether the photo is stored for good."""
    return Photo.objects.filter(pk=sha256).exists()
