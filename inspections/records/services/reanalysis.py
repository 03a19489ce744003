"""A newer method looks at photos again. Every earlier answer is kept, and evidence shows both."""
from dataclasses import dataclass

from django.db.models import QuerySet
from django.utils import timezone

from imaging import advice
from inspections.records import jobs
from inspections.records.advising import PRAWN_PURPOSES, advice_contexts, switched_off_now, version_named
from inspections.records.models import Advisory, Delivery, Photo


@dataclass(frozen=True)
class Asked:
    """Photos of prawns in the deliveries, and what became of each; ``photos`` is the sum of the others."""

    photos: int = 0
    asked: int = 0
    answered: int = 0
    switched_off: int = 0
    not_here: int = 0

    def __add__(self, other: "Asked") -> "Asked":
        return Asked(*(getattr(self, name) + getattr(other, name) for name in self.__dataclass_fields__))


def ask_again(*, deliveries: QuerySet[Delivery], everything: bool = False, is_dry_run: bool = False) -> Asked:
    """Ask for advice anew on the photos of signed deliveries.

    Parameters
    ----------
    deliveries : QuerySet of Delivery
    everything : bool
        Also photos that the current method has answered already: for a baseline that has been refined since.
    is_dry_run : bool
        Only count.

    Returns
    -------
    Asked
        ``answered`` were passed over, since the current method has answered them; ``switched_off`` belong to
        specifications that wanted no advice when the delivery was signed, or want none now; ``not_here`` are gone,
        or cannot be read as a picture.

    Notes
    -----
    Each job is written on its own: broken off and started again, it goes on where it was. Nothing is
    replaced; the worker adds an answer beside the earlier ones.
    """
    again = f"{advice.METHOD_VERSION} {timezone.now().isoformat()}" if everything else advice.METHOD_VERSION
    found = Asked()
    for document in deliveries.order_by("arrived_at").values_list("document", flat=True).iterator(chunk_size=50):
        found += _ask_document(document, again, everything, is_dry_run)
    return found


def _ask_document(document: dict, again: str, everything: bool, is_dry_run: bool) -> Asked:
    told = [(entry["sha256"], context, version_named(document, entry)) for entry, context in advice_contexts(document)
            if entry.get("purpose") in PRAWN_PURPOSES]
    off_now = switched_off_now(version for _, _, version in told)
    hashes = {sha256 for sha256, _, _ in told}
    here = set(Photo.objects.filter(pk__in=hashes, unreadable="").values_list("pk", flat=True))
    answers = Advisory.objects.filter(photo__in=hashes, method_version=advice.METHOD_VERSION)
    known = [] if everything else list(answers.values_list("photo_id", "context"))
    found = Asked()
    for sha256, context, version in told:
        match (None if version in off_now else context, sha256 in here, (sha256, context) in known):
            case (None, _, _):
                found += Asked(1, switched_off=1)
            case (_, False, _):
                found += Asked(1, not_here=1)
            case (_, _, True):
                found += Asked(1, answered=1)
            case _:
                found += Asked(1, asked=1)
                if not is_dry_run:
                    subject = {"sha256": sha256, "context": context, "again": again}
                    jobs.write_job(jobs.ANALYSE_PHOTO, subject, version=version)
    return found
