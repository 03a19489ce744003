"""Advice on a photo came back from the worker."""
from inspections.records.models import Advisory, Photo

#: What a method is told of a photo, and what answers are asked for by.
TOLD = ("species_code", "presentation", "state", "purpose")


def record_advisory(
    *, photo: Photo, context: dict, advice: dict, overlay_name: str = "", histogram_name: str = ""
) -> Advisory:
    """Keep one advice beside the earlier ones, by this method or by an earlier one, as it was given.

    Parameters
    ----------
    overlay_name, histogram_name : str, optional
        Where the pictures of this advice lie; methods before ``pieces-1`` made a histogram.

    Notes
    -----
    Writes one row in the caller's transaction (the one that closes the job). A second call adds a second
    row: the caller's claim on the job keeps that from happening.
    """
    advisory = Advisory(
        photo=photo, context=context, **{name: context.get(name) or "" for name in TOLD},
        **{name: advice.get(name) for name in ("share", "share_low", "share_high")},
        figure=advice["figure"] if advice.get("is_clear") else None,
        body=advice, overlay_name=overlay_name, histogram_name=histogram_name, answer=advice["answer"],
        would_say=advice.get("would_say", advice["answer"]), method_version=advice["method_version"],
        baseline_version=advice.get("baseline_version") or "",
    )
    advisory.full_clean()
    advisory.save(force_insert=True)
    return advisory
