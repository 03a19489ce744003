"""A made-up group of any size, written in bulk: rows only, for measuring. Never for an installation in use."""
import json
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import islice
from random import Random
from uuid import UUID

from django.db import connection, models, transaction

from inspections.comparison.models import COUNTED, KEYS, LineTally
from inspections.people.models import Person, Role, Site
from inspections.records.models import (
    Delivery,
    DocketLine,
    LimitSet,
    LineLot,
    SearchWord,
    Specification,
    SpecificationVersion,
    Supplier,
)
from inspections.records.search_words import words_of

SITES, SUPPLIERS, YEARS, OPENED = 30, 40, 3, 3
GOODS = [(presentation, state) for presentation in ("HOSO", "HLSO", "PUD") for state in ("raw", "cooked")]
CHUNK = 20_000
_TALLIED = ("supplier_id", "site_id", "arrived_at")


def make_group(cartons: int, seed: int = 1) -> Person:
    """Write a group with so many opened cartons over three years, and give somebody who sees all of it.

    Three cartons opened a line, one or two lines a delivery, each supplier at ten of thirty sites. The database
    should hold nothing else.
    """
    random = Random(seed)
    person = Person.objects.create_user("bench", name="Bench", role=Role.GROUP_OPERATIONS)
    limits = LimitSet.objects.create(name="bench", version=1, data={}, is_current=True)
    sites = [Site.objects.create(name=f"Site {n:02}", code=f"S{n:02}") for n in range(SITES)]
    suppliers = [Supplier.objects.create(name=f"Supplier {n:02}", code=f"P{n:02}") for n in range(SUPPLIERS)]
    versions = [_version(*goods) for goods in GOODS]
    lines = _lines(random, -(-cartons // OPENED), person, limits, sites, suppliers, versions)
    while chunk := list(islice(lines, CHUNK)):
        with transaction.atomic():
            _write(chunk, random)
    _write_months()
    _write_below()
    _write_words()
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")
    return person


def _version(presentation: str, state: str) -> SpecificationVersion:
    goods = Specification.objects.create(code=f"{presentation}-{state}", name=f"{presentation} {state}")
    return SpecificationVersion.objects.create(
        specification=goods, version=1, data={"presentation": presentation, "state": state})


def _lines(random, count, person, limits, sites, suppliers, versions) -> Iterator[tuple[Delivery, DocketLine]]:
    now = datetime.now(UTC).replace(microsecond=0)
    made = 0
    while made < count:
        supplier = random.randrange(len(suppliers))
        at = now - timedelta(minutes=random.randrange(YEARS * 365 * 24 * 60))
        delivery = Delivery(
            id=UUID(int=random.getrandbits(128)), site=sites[(supplier + 3 * random.randrange(10)) % len(sites)],
            supplier=suppliers[supplier], docket_number=f"DN-{made:07}", arrived_at=at, receiver=person,
            device_id=UUID(int=1), limit_set=limits, document={}, judgement={}, signed_at=at)
        for number in range(1, random.choice((2, 3))):
            refused = 10 if random.random() < 0.05 else 0
            made += 1
            yield delivery, DocketLine(
                id=UUID(int=random.getrandbits(128)), delivery=delivery, number=number,
                specification_version=random.choice(versions), cartons_on_docket=10, cartons_counted=10,
                lot=f"L{random.randrange(10**6):06}", suggested="accept", decided="accept", accepted=10 - refused,
                refused=refused, held=0)


def _write(chunk: list[tuple[Delivery, DocketLine]], random: Random) -> None:
    lines = [line for _, line in chunk]
    bad = {line.pk: sum(random.random() < 0.08 for _ in range(OPENED)) for line in lines}
    for delivery, line in chunk:
        delivery.has_refused |= line.refused > 0
        delivery.has_defective |= bad[line.pk] > 0
    # the last delivery of a chunk may go on in the next one
    fresh = {delivery.pk: delivery for delivery, line in chunk if line.number == 1}
    _insert(Delivery, fresh.values())
    _insert(DocketLine, lines)
    _insert(LineTally, (_tally(line, bad[line.pk]) for line in lines))


def _write_months() -> None:
    columns, sums = ", ".join(KEYS), ", ".join(f"SUM({name})" for name in COUNTED)
    with connection.cursor() as cursor:
        cursor.execute(f"""
            INSERT INTO comparison_monthtally ({columns}, {", ".join(COUNTED)})
            SELECT {columns}, {sums} FROM comparison_linetally GROUP BY {columns}""")  # noqa: S608


def _write_below() -> None:
    """Cartons, readings and lots as the lines and their tallies want them, written by the database itself."""
    fresh, json_type = ("lower(hex(randomblob(16)))", "TEXT") if connection.vendor == "sqlite" else (
        "gen_random_uuid()", "jsonb")
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(f"""
            INSERT INTO records_carton (id, line_id, position, is_defective, black_spot, data, derived)
            SELECT {fresh}, t.line_id, n.n, n.n <= t.defective, '',
                CAST('{{"label": {{"lot": "' || l.lot || '"}}}}' AS {json_type}), CAST('{{}}' AS {json_type})
            FROM comparison_linetally t JOIN records_docketline l ON l.id = t.line_id
            JOIN (SELECT 1 AS n UNION SELECT 2 UNION SELECT 3) n ON n.n <= t.opened
            """)  # noqa: S608
        cursor.execute("""
            INSERT INTO records_reading (delivery_id, carton_id, kind, value, unit, entered, entered_unit, method)
            SELECT l.delivery_id, c.id, k.kind, 1, k.unit, '1', k.unit, ''
            FROM records_carton c JOIN records_docketline l ON l.id = c.line_id
            JOIN (SELECT 'product' AS kind, 'C' AS unit UNION SELECT 'sample', 'g') k ON 1 = 1""")
        cursor.execute("""
            INSERT INTO records_linelot (line_id, lot, key, is_on_docket, labels)
            SELECT l.id, l.lot, lower(l.lot), t.opened >= 0, t.opened
            FROM records_docketline l JOIN comparison_linetally t ON t.line_id = l.id""")


def _write_words() -> None:
    dockets = list(Delivery.objects.order_by().values_list("pk", "docket_number"))
    lots = list(LineLot.objects.order_by().values_list("pk", "line__delivery_id", "lot"))
    with transaction.atomic():
        _insert(SearchWord, (SearchWord(delivery_id=pk, word=word)
                             for pk, docket in dockets for word in words_of(docket)))
        _insert(SearchWord, (SearchWord(delivery_id=delivery, lot_id=pk, word=word)
                             for pk, delivery, lot in lots for word in words_of(lot)))


def _tally(line: DocketLine, bad: int) -> LineTally:
    """As ``tallies.fresh_tallies`` would count it, without asking the database; sites are in UTC."""
    delivery, goods, day = line.delivery, line.specification_version.data, line.delivery.arrived_at.date()
    return LineTally(
        line=line, delivery=delivery, **{name: getattr(delivery, name) for name in _TALLIED},
        specification=line.specification_version.specification, product_cc=OPENED * 100,
        presentation=goods["presentation"], state=goods["state"], day=day, week=day - timedelta(days=day.weekday()),
        month=day.replace(day=1), deliveries=int(line.number == 1), deliveries_opened=int(line.number == 1),
        delivered=line.cartons_counted, refused=line.refused, held=0, opened=OPENED, defective=bad, with_product=OPENED,
        with_sample=OPENED)


def _plain(value):
    """A value as the database's driver takes it."""
    if isinstance(value, UUID):
        return value.hex
    if isinstance(value, datetime):
        return connection.ops.adapt_datetimefield_value(value)
    return json.dumps(value) if isinstance(value, dict | list) else value


def _insert(model: type[models.Model], rows: Iterable[models.Model]) -> None:
    """A plain INSERT, a row at a time in one call: several times as fast as objects in bulk."""
    fields = [field for field in model._meta.concrete_fields if not isinstance(field, models.BigAutoField)]
    columns = ", ".join(connection.ops.quote_name(field.column) for field in fields)
    marks = ", ".join(["%s"] * len(fields))
    names = [field.attname for field in fields]
    values = (tuple(_plain(getattr(row, name)) for name in names) for row in rows)
    with connection.cursor() as cursor:
        cursor.executemany(f"INSERT INTO {model._meta.db_table} ({columns}) VALUES ({marks})", values)  # noqa: S608
