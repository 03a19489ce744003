"""Many stored inspections, copied in SQL from one that was signed: rows only, for measuring how speed grows with them.

    python -m inspections.development.grown 100000

Documents and sealed contents of the copies are empty, so a page of the database holds more of them than of real ones;
what is asked by an index goes as deep as it would. They are no records: their seals do not hold.
"""
import os
import sys

BATCH = 10_000
#: Table, the template's rows, and columns that a copy has of its own; a column that is None is left to the database.
COPIED: list[tuple[str, str, dict[str, str | None]]] = [
    ("sync_document", "t.id = {d}", {"id": "g.id", "docket_key": "'g' || g.n", "body": "'{{}}'"}),
    ("sync_documentrevision", "t.document_id = {d}", {"id": None, "document_id": "g.id", "body": "'{{}}'"}),
    ("sync_namedphoto", "t.document_id = {d}", {"id": None, "document_id": "g.id"}),
    ("records_delivery", "t.id = {d}", {
        "id": "g.id", "docket_number": "'G' || g.n", "document": "'{{}}'", "judgement": "'{{}}'"}),
    ("records_docketline", "t.delivery_id = {d}", {"id": "g.line_id", "delivery_id": "g.id"}),
    ("records_carton", "t.line_id IN (SELECT id FROM records_docketline WHERE delivery_id = {d})", {
        "id": "{new}", "line_id": "g.line_id", "data": "'{{}}'", "derived": "'{{}}'"}),
    ("records_reading", "t.delivery_id = {d}", {"id": None, "delivery_id": "g.id", "carton_id": "NULL"}),
    ("records_searchword", "t.delivery_id = {d}", {"id": None, "delivery_id": "g.id", "lot_id": "NULL"}),
    ("records_photouse", "t.delivery_id = {d}", {"id": "{new}", "delivery_id": "g.id", "line_id": "g.line_id"}),
    ("comparison_linetally", "t.delivery_id = {d}", {"line_id": "g.line_id", "delivery_id": "g.id"}),
    ("sync_idempotencykey", "t.id = (SELECT MAX(id) FROM sync_idempotencykey)", {
        "id": None, "key": "'grown-' || g.n", "answer": "'{{}}'"}),
    ("records_job", "t.id IN (SELECT id FROM records_job ORDER BY id LIMIT 4)", {
        "id": "{new}", "key": "{new_text}", "state": "'done'", "finished_at": "t.created_at"}),
    ("evidence_seal", "t.kind = 'delivery' AND t.subject_id = {d}", {
        "id": "{new}", "subject_id": "g.id", "number": "1000000 + g.n", "content": "{empty}", "sha256": "{new_text}"}),
]


def grow(wanted: int) -> int:
    """Copy until so many inspections are stored; how many there are."""
    from django.db import connection, transaction

    from inspections.records.models import Delivery

    is_sqlite = connection.vendor == "sqlite"
    template = Delivery.objects.order_by("signed_at").first()
    if template is None:
        raise SystemExit("There is no signed delivery to copy. Sign one first.")
    words = {
        "d": f"'{template.pk.hex if is_sqlite else template.pk}'",
        "new": "lower(hex(randomblob(16)))" if is_sqlite else "gen_random_uuid()",
        "new_text": "lower(hex(randomblob(16)))" if is_sqlite else "md5(random()::text || g.n || t.id::text)",
        "empty": "x''" if is_sqlite else "''::bytea",
    }
    stored = Delivery.objects.count()
    while stored < wanted:
        count = min(BATCH, wanted - stored)
        with transaction.atomic(), connection.cursor() as cursor:
            _number(cursor, words, stored, count, is_sqlite)
            for table, rows, own in COPIED:
                names = [one.name for one in connection.introspection.get_table_description(cursor, table)
                         if own.get(one.name, "") is not None]
                taken = ", ".join((own.get(name) or f't."{name}"').format(**words) for name in names)
                columns = ", ".join(f'"{name}"' for name in names)
                cursor.execute(f"INSERT INTO {table} ({columns}) SELECT {taken} "
                               f"FROM {table} t CROSS JOIN grown g WHERE {rows.format(**words)}")
        stored += count
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")
    return stored


def _number(cursor, words: dict[str, str], stored: int, count: int, is_sqlite: bool) -> None:
    """The ids of the next copies, in a table of this connection."""
    kind = "text" if is_sqlite else "uuid"
    cursor.execute(f"CREATE TEMPORARY TABLE IF NOT EXISTS grown (n bigint, id {kind}, line_id {kind})")
    cursor.execute("DELETE FROM grown")
    cursor.execute(
        f"WITH RECURSIVE c(n) AS (SELECT {stored} UNION ALL SELECT n + 1 FROM c WHERE n < {stored + count - 1}) "
        f"INSERT INTO grown SELECT n, {words['new']}, {words['new']} FROM c")


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
    import django

    django.setup()
    sys.stdout.write(f"{grow(int(sys.argv[1]))} stored inspections (copied rows, empty documents)\n")
