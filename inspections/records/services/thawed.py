"""A fault showed when goods were thawed, days after they were signed for: which line, when, and with which photos.

Hidden faults are told within hours or days of opening (CV-12-62, common practice; notice that names the defect within
a reasonable time after it was found: CISG Art. 39(1), read).
"""
from uuid import UUID

from inspections.errors import Conflict, Unprocessable
from inspections.records import jobs
from inspections.records.models import Addendum, Delivery, PhotoUse
from inspections.records.services.signable import moment
from inspections.records.shape.later import ThawedBody

#: What a photo of such a fault shows, as ``PhotoUse`` keeps it.
PURPOSE = "thawed"


def need_thawed(body: ThawedBody, delivery: Delivery) -> None:
    """Nothing, where goods of the line were kept and thawed after they came.

    Raises
    ------
    Unprocessable
        THAWED-LINE, THAWED-WHEN.
    """
    line = next((one for one in delivery.lines.all() if str(one.pk) == body.line_id), None)
    if line is None or not line.accepted + line.held:
        raise Unprocessable("THAWED-LINE")
    at = moment(body.thawed_at)
    if at is None or at < delivery.arrived_at:
        raise Unprocessable("THAWED-WHEN")


def thawed_photos(row: Addendum) -> list[PhotoUse]:
    """Unsaved rows of the photos of such a fault; none for another kind of addendum."""
    if row.kind != "thawed":
        return []
    return [PhotoUse(id=UUID(photo["id"]), photo_id=photo["sha256"], delivery_id=row.delivery_id,
                     site_id=row.delivery.site_id, line_id=UUID(row.body["line_id"]), purpose=PURPOSE, taken_at=row.at)
            for photo in row.body["photos"]]


def keep_thawed_photos(row: Addendum) -> None:
    """Note where the photos belong, and ask for their small pictures; no advice is asked for.

    Raises
    ------
    Conflict
        IDS-TAKEN: a photo's id belongs to another use.
    """
    uses = thawed_photos(row)
    if PhotoUse.objects.filter(pk__in=[use.pk for use in uses]).exists():
        raise Conflict("IDS-TAKEN", what="A photo")
    PhotoUse.objects.bulk_create(uses)
    jobs.write_jobs([(jobs.SMALL_PICTURES, {"sha256": use.photo_id}, "") for use in uses])
