"""The advice that stands on a photo in the place where a document puts it."""
from inspections.records.acts.photo import advice_context
from inspections.records.models import Advisory, Job, JobState, Photo


def advice_in(document: dict) -> dict[str, Advisory | str | None]:
    """The latest advice on each photo that a document names.

    Returns
    -------
    dict of str to Advisory, str or None
        By hash. None while it is being worked on or the photo is not here; a sentence where the worker
        had to give up. Only advice given for this species, form and purpose counts.
    """
    return {entry["sha256"]: _advice_on(document, entry) for entry in document["photos"]}


def _advice_on(document: dict, entry: dict) -> Advisory | str | None:
    context = advice_context(document, entry)
    given = [one for one in Advisory.objects.filter(photo_id=entry["sha256"]) if one.context == context]
    if given:
        return given[-1]
    parked = Job.objects.filter(subject={"sha256": entry["sha256"], "context": context}, state=JobState.PARKED).first()
    return parked.sentence if parked else None


def is_here(sha256: str) -> bool:
    """Whether the photo is stored for good."""
    return Photo.objects.filter(pk=sha256).exists()
