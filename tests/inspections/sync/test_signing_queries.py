"""Signing asks for all photos at once: the number of queries must not grow with them."""
import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.inspections.receiving import decide, document, keep, photo_entry, picture


def queries_of(kitchen, phone, photos: int, docket: str) -> int:
    contents = [picture((number, 90, photos)) for number in range(photos)]
    for content in contents:
        keep(content)
    draft = document(kitchen, docket=docket)
    line = draft["lines"][0]
    draft["photos"] = [photo_entry(content, line_id=line["id"], purpose="top") for content in contents]
    final = decide(draft)
    phone.put(final)
    with CaptureQueriesContext(connection) as asked:
        assert phone.sign(final, f"key-for-{docket}-{photos}").status_code == 200
    return len(asked)


@pytest.mark.parametrize("is_early", [True, False])
def test_forty_photos_take_no_more_queries_than_two(kitchen, phone, is_early):
    if is_early:
        from inspections.evidence.sharing import shared_copy
        from inspections.records.models import Photo

        for number in range(40):
            keep(picture((number, 90, 40)))
        for photo in Photo.objects.all():
            shared_copy(photo)
    few, many = queries_of(kitchen, phone, 2, "DN-2"), queries_of(kitchen, phone, 40, "DN-40")
    # Copies that were not made when the photos arrived are made one by one, before the transaction.
    assert many - few <= (0 if is_early else 38 * 6)
    assert few <= (56 if connection.vendor == "sqlite" else 57)
