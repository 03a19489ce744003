"""Which advice stands on a photo in the place where a document puts it: every answer, or why there is none.

Only advice given for this species, form and purpose counts. A newer method leaves the earlier answers standing,
so there may be several; the newest is shown, the earlier ones are told.
"""
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from inspections.records import stored
from inspections.records.advising import SWITCHED_OFF, advice_contexts
from inspections.records.jobs import ANALYSE_PHOTO
from inspections.records.models import Advisory, Job, JobState, PhotoUse


@dataclass(frozen=True)
class NoAdvice:
    """Why there is none and none will come by itself.

    ``code``: NOT-ANALYSED (the worker gave up), UNREADABLE (the file is no whole picture), SWITCHED-OFF, or
    WAS-SWITCHED-OFF (while the photo waited or was being looked at).
    """

    code: str
    sentence: str

    @property
    def is_switched_off(self) -> bool:
        return self.code in {"SWITCHED-OFF", "WAS-SWITCHED-OFF"}


Answers = list[Advisory] | NoAdvice
#: Why nothing can be shown of a photo, by the code kept with it.
UNREADABLE = {
    code: f"{why} It is kept as it came, and is part of the record. Nothing of it can be shown or looked at."
    for code, why in {
        "PHOTO-EMPTY": "The photo’s file is empty.",
        "PHOTO-NOT-A-PICTURE": "The photo’s file is not a picture.",
        "PHOTO-DAMAGED": "Part of the photo is missing or damaged.",
        "PHOTO-TOO-MANY-PIXELS": "The photo has more pixels than can be read.",
    }.items()
}


def answers_in(document: dict) -> dict[str, Answers]:
    """Every advice on each photo by its hash, oldest first; empty while it is worked on or the photo is not here."""
    return {entry["sha256"]: answers for entry, answers in _answered(document)}


def advice_in(document: dict) -> dict[str, Advisory | NoAdvice | None]:
    """The latest advice on each photo that a document names, by hash; None while it waits or is not here."""
    return {sha256: _latest(answers) for sha256, answers in answers_in(document).items()}


def photos_in(document: dict) -> list[dict]:
    """The photos of a document as the desk reads them.

    Returns
    -------
    list of dict
        ``advice`` is the latest one, None while none has come; ``earlier`` the answers before it, newest first;
        ``unreadable`` the sentence of a file of which nothing can be shown, else None.
    """
    stored = photos_of(document)
    return [
        {
            "id": entry["id"],
            "sha256": entry["sha256"],
            "purpose": entry.get("purpose") or "load",
            "line_id": entry.get("line_id"),
            "carton_id": entry.get("carton_id"),
            "taken_at": entry.get("taken_at"),
            "is_stored": entry["sha256"] in stored,
            "unreadable": UNREADABLE.get(stored.get(entry["sha256"], "")),
            "advice": advice_json(entry["sha256"], _latest(answers)),
            "earlier": [] if isinstance(answers, NoAdvice) else [earlier_json(one) for one in answers[-2::-1]],
        }
        for entry, answers in _answered(document)
    ]


def advice_json(sha256: str, found: Advisory | NoAdvice | None) -> dict | None:
    """One advice as phone and desk read it, with addresses of its pictures; why there is none looks alike."""
    if not isinstance(found, NoAdvice):
        return None if found is None else {**found.body, **picture_addresses(sha256, found)}
    return {
        "answer": "switched_off" if found.is_switched_off else "cannot_tell", "share": None, "share_low": None,
        "share_high": None, "where": [], "reasons": [{"code": found.code, "text": found.sentence}],
        "card_used": False, "method_version": None, "baseline_version": None, **picture_addresses(sha256, None),
    }


def earlier_json(one: Advisory) -> dict:
    """An answer that a later one stands beside: what it said, by which method, and when."""
    return {
        "id": str(one.pk), "method_version": one.method_version, "answer": one.answer, "share": one.share,
        "share_low": one.share_low, "share_high": one.share_high, "at": one.created_at.isoformat(),
        "overlay": picture_addresses(one.photo_id, one)["overlay"],
    }


def picture_addresses(sha256: str, advisory: Advisory | None) -> dict:
    """Where the pictures of a photo and of the advice on it are to be had; None for those that were not made."""
    address = f"/api/photos/{sha256}"
    return {
        "overlay": f"{address}/overlay?of={advisory.pk}" if advisory and advisory.overlay_name else None,
        "histogram": f"{address}/histogram?of={advisory.pk}" if advisory and advisory.histogram_name else None,
        "thumb": f"{address}/thumb",
    }


def _latest(answers: Answers) -> Advisory | NoAdvice | None:
    if isinstance(answers, NoAdvice):
        return answers
    return answers[-1] if answers else None


def _answered(document: dict) -> Iterator[tuple[dict, Answers]]:
    if not stored.is_filed(document):
        return
    own = photos_of(document)
    told = advice_contexts(document)
    given: dict[str, list[Advisory]] = {}
    for advisory in Advisory.objects.filter(photo__in={entry["sha256"] for entry, _ in told}):
        given.setdefault(advisory.photo_id, []).append(advisory)
    closed = _closed_without_advice(entry["sha256"] for entry, context in told if context is not None)
    for entry, context in told:
        # A document may name a photo that is not its own: what another site was told of it is not for this one.
        if entry["sha256"] not in own:
            yield entry, []
        elif own[entry["sha256"]]:
            yield entry, NoAdvice("UNREADABLE", UNREADABLE[own[entry["sha256"]]])
        else:
            yield entry, _answers(entry["sha256"], context, given, closed)


def photos_of(document: dict) -> dict[str, str]:
    """The photos that are here for a delivery, by hash, each with why it cannot be read; empty where it can."""
    return dict(PhotoUse.objects.filter(delivery_id=document["id"]).values_list("photo_id", "photo__unreadable"))


def _answers(sha256: str, context: dict | None, given: dict[str, list[Advisory]], closed: list[Job]) -> Answers:
    if context is None:
        return NoAdvice("SWITCHED-OFF", SWITCHED_OFF)
    found = [one for one in given.get(sha256, []) if one.context == context]
    ended = [job for job in closed if _asked(job) == (sha256, context)]
    if found or not ended:
        return found
    code = "WAS-SWITCHED-OFF" if ended[-1].state == JobState.UNWANTED else "NOT-ANALYSED"
    return NoAdvice(code, ended[-1].sentence)


def _closed_without_advice(hashes: Iterable[str]) -> list[Job]:
    """Work on those photos that ended without an answer, given up or no longer wanted, oldest first.

    Where the same is being asked anew, an answer is still to come: a photo that waits for ever would look like
    one that is still coming, and one that is still coming must not look given up.
    """
    jobs = list(Job.objects.filter(kind=ANALYSE_PHOTO, subject__sha256__in=set(hashes)).order_by("created_at", "id"))
    coming = [_asked(job) for job in jobs if job.state in (JobState.WAITING, JobState.TAKEN)]
    return [job for job in jobs if job.state in (JobState.PARKED, JobState.UNWANTED) and _asked(job) not in coming]


def _asked(job: Job) -> tuple[str, dict]:
    return job.subject["sha256"], job.subject.get("context")
