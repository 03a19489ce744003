"""The advice that stands on a photo in the place where a document puts it."""
from dataclasses import dataclass

from inspections.records.advising import SWITCHED_OFF, advice_contexts
from inspections.records.models import Advisory, Job, JobState, Photo


@dataclass(frozen=True)
class NoAdvice:
    """Why there is none and none will come: NOT-ANALYSED (the worker gave up) or SWITCHED-OFF."""

    code: str
    sentence: str


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
    return {entry["sha256"]: _answers(entry["sha256"], context, given) for entry, context in told}


def _answers(sha256: str, context: dict | None, given: dict[str, list[Advisory]]) -> list[Advisory] | NoAdvice:
    if context is None:
        return NoAdvice("SWITCHED-OFF", SWITCHED_OFF)
    found = [one for one in given.get(sha256, []) if one.context == context]
    parked = None if found else Job.objects.filter(
        subject={"sha256": sha256, "context": context}, state=JobState.PARKED).first()
    return NoAdvice("NOT-ANALYSED", parked.sentence) if parked else found


def is_here(sha256: str) -> bool:
    """Whether the photo is stored for good."""
    return Photo.objects.filter(pk=sha256).exists()
