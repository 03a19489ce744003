"""Nearly every tap is a revision with the same photos: what was settled with the one before is not asked again."""
from django.db import connection
from django.test.utils import CaptureQueriesContext

from inspections.records.models import Job, PhotoUse
from inspections.sync.models import NamedPhoto
from tests.inspections.receiving import document, photo_entry, picture, sha256_of

CONTENT = picture("coral")


def test_a_tap_asks_little_of_the_database(kitchen, phone):
    draft = document(kitchen, photos=[photo_entry(CONTENT)])
    phone.send_photo(CONTENT)
    phone.put(draft)
    with CaptureQueriesContext(connection) as asked:
        assert phone.put({**draft, "notes": "so far"}, 1).json() == {"revision": 2}
    # session, person, site, document, device, two writes, the transaction
    assert len(asked) <= 10


def test_a_photo_that_moves_to_another_line_moves_with_the_next_revision(kitchen, phone):
    entry = photo_entry(CONTENT)
    draft = document(kitchen, photos=[entry])
    phone.send_photo(CONTENT)
    phone.put(draft)
    line = draft["lines"][0]["id"]
    phone.put({**draft, "photos": [{**entry, "line_id": line, "purpose": "top"}]}, 1)
    use = PhotoUse.objects.get()
    assert (str(use.line_id), use.purpose) == (line, "top")


def test_a_photo_of_other_goods_is_asked_about_anew(kitchen, phone):
    draft = document(kitchen)
    line = draft["lines"][0]
    draft["photos"] = [photo_entry(CONTENT, line_id=line["id"], purpose="top")]
    phone.send_photo(CONTENT)
    phone.put(draft)
    phone.put({**draft, "lines": [{**line, "specification_id": str(kitchen.tiger.pk)}]}, 1)
    assert {job.subject["context"]["species_code"] for job in Job.objects.all()} == {"PNV", "GIT"}


def test_a_photo_that_is_taken_out_is_no_longer_waited_for(kitchen, phone):
    draft = document(kitchen, photos=[photo_entry(CONTENT)])
    phone.put(draft)
    assert NamedPhoto.objects.get().sha256 == sha256_of(CONTENT)
    phone.put({**draft, "photos": []}, 1)
    assert not NamedPhoto.objects.exists()


def test_a_photo_that_came_between_two_revisions_is_in_its_place(kitchen, phone):
    draft = document(kitchen, photos=[photo_entry(CONTENT)])
    phone.put(draft)
    phone.send_photo(CONTENT)
    phone.put({**draft, "notes": "so far"}, 1)
    assert PhotoUse.objects.get().photo_id == sha256_of(CONTENT)


def test_a_colleague_who_goes_on_with_a_photo_of_another_site_brings_it(kitchen, phone, other_phone):
    """The site lacks a photo that the first sender does not hold and the second does."""
    from inspections.records.services.photo import receive_photos, store_photo

    kitchen.other_receiver.sites.add(kitchen.other_site)
    store_photo(sha256=sha256_of(CONTENT), path_or_bytes=CONTENT)
    receive_photos(hashes=[sha256_of(CONTENT)], sites=[kitchen.other_site])
    draft = document(kitchen, photos=[photo_entry(CONTENT)])
    phone.put(draft)
    assert not PhotoUse.objects.exists()
    other_phone.put({**draft, "notes": "by Tom"}, 1)
    assert PhotoUse.objects.get().photo_id == sha256_of(CONTENT)


def test_the_docket_of_a_new_document_is_looked_for_by_an_index(kitchen, phone):
    """Without one, each new delivery went through all that there ever were: 50 ms with 100,000 of them."""
    with CaptureQueriesContext(connection) as asked:
        phone.put(document(kitchen))
    looked_for = (one["sql"] for one in asked if one["sql"].startswith("SELECT"))
    (query,) = [sql for sql in looked_for if "docket_key" in sql.partition("WHERE")[2]]
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute(f"EXPLAIN QUERY PLAN {query}")
        else:
            cursor.execute("SET LOCAL enable_seqscan = off")
            cursor.execute(f"EXPLAIN {query}")
        plan = str(cursor.fetchall())
    assert "docket" in plan.lower()
    assert "SCAN sync_document" not in plan


def test_documents_that_wait_for_a_photo_are_looked_for_by_its_hash(kitchen, phone):
    """Joined with the documents, SQLite went through all of those: 65 ms for each photo with 100,000 of them."""
    phone.put(document(kitchen, photos=[photo_entry(CONTENT)]))
    with CaptureQueriesContext(connection) as asked:
        phone.send_photo(CONTENT)
    assert not [one["sql"] for one in asked if 'FROM "sync_document" INNER JOIN "sync_namedphoto"' in one["sql"]]
    assert PhotoUse.objects.get().photo_id == sha256_of(CONTENT)
