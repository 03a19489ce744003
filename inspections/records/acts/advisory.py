"""Advice on a photo came back from the worker."""
from inspections.records.models import Advisory, Photo

#: What a method is told of a photo, and what answers are asked for by.
TOLD = ("species_code", "presentation", "state", "purpose")


def record_advisory(
    *, photo: Photo, context: dict, advice: dict, look: dict | None = None, overlay_name: str = "",
    histogram_name: str = "",
) -> Advisory:
    """Keep one advice beside the earlier ones.

    Parameters
    ----------
    look : dict, optional
        What the photo could teach a baseline (``imaging.baseline.AcceptedLook``); only where a card was used.
    overlay_name, histogram_name : str, optional
        Where the pictures of this advice lie.

    Notes
    -----
    Writes one row in the caller's transaction (the one that closes the job). A second call adds a second
    row: the caller's claim on the job keeps that from happening.
    """
    advisory = Advisory(
        photo=photo, context=context, **{name: context.get(name) or "" for name in TOLD},
        body=advice, look=look, overlay_name=overlay_name, histogram_name=histogram_name,
        answer=advice["answer"], share=advice.get("share"),
        share_low=advice.get("share_low"), share_high=advice.get("share_high"),
        method_version=advice["method_version"], baseline_version=advice.get("baseline_version") or "",
    )
    advisory.full_clean()
    advisory.save(force_insert=True)
    return advisory
