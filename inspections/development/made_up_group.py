"""A made-up group of any size, written in bulk by the database itself: for measuring, never for one in use."""
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta

import numpy as np
from django.db import connection, transaction

from inspections.comparison.models import COUNTED, KEYS
from inspections.people.models import Person, Role, Site
from inspections.records.models import LimitSet, Specification, SpecificationVersion, Supplier

SITES, SUPPLIERS, YEARS, OPENED = 30, 40, 3, 3
GOODS = [(presentation, state) for presentation in ("HOSO", "HLSO", "PUD") for state in ("raw", "cooked")]
#: Tables that are filled.
FILLED = ("records_delivery", "records_docketline", "comparison_linetally", "comparison_monthtally", "records_carton",
          "records_reading", "records_linelot", "records_searchword")
_DAYS = ("day", "week", "month")
#: What the two databases say differently: an id with its last sign changed, days, and a JSON column.
_SQLITE = {"id": "substr({of}, 1, 31) || {last}", "day": "date({at})", "week": "date({at}, '-6 days', 'weekday 1')",
           "month": "date({at}, 'start of month')", "json": "TEXT"}
_POSTGRESQL = {"id": "CAST(substr(CAST({of} AS text), 1, 35) || {last} AS uuid)",
               "day": "CAST({at} AT TIME ZONE 'UTC' AS date)",
               "week": "CAST(date_trunc('week', {at} AT TIME ZONE 'UTC') AS date)",
               "month": "CAST(date_trunc('month', {at} AT TIME ZONE 'UTC') AS date)", "json": "jsonb"}


def make_group(cartons: int, seed: int = 1) -> Person:
    """Write a group with so many opened cartons over three years, and give somebody who sees all of it.

    Three cartons opened a line, one or two lines a delivery, each supplier at ten of thirty sites; ids in the order of
    arrival, as phones make them. The database should hold nothing else.
    """
    person = Person.objects.create_user("bench", name="Bench", role=Role.GROUP_OPERATIONS)
    limits = LimitSet.objects.create(name="bench", version=1, data={}, is_current=True)
    sites = [Site.objects.create(name=f"Site {n:02}", code=f"S{n:02}") for n in range(SITES)]
    suppliers = [Supplier.objects.create(name=f"Supplier {n:02}", code=f"P{n:02}") for n in range(SUPPLIERS)]
    versions = [_version(*goods) for goods in GOODS]
    with _without_indexes(), transaction.atomic():
        _write_dockets(np.random.default_rng(seed), -(-cartons // OPENED), person, limits, sites, suppliers, versions)
        _write_tallies()
        _write_below()
        _write_words()
    _run("ANALYZE")
    return person


def _version(presentation: str, state: str) -> SpecificationVersion:
    goods = Specification.objects.create(code=f"{presentation}-{state}", name=f"{presentation} {state}")
    return SpecificationVersion.objects.create(
        specification=goods, version=1, data={"presentation": presentation, "state": state})


def _write_dockets(random, lines, person, limits, sites, suppliers, versions) -> None:
    """Deliveries and their lines, and beside them how many of each line's opened cartons are defective."""
    now = datetime.now(UTC).replace(microsecond=0)
    first = np.cumsum(random.integers(1, 3, lines))
    first = np.concatenate(([0], first[first < lines]))
    of = np.searchsorted(first, np.arange(lines), side="right") - 1
    number = np.arange(lines) - first[of] + 1
    supplier = random.integers(len(suppliers), size=len(first))
    site = (supplier + 3 * random.integers(10, size=len(first))) % len(sites)
    before = np.sort(random.integers(YEARS * 365 * 24 * 60, size=len(first)))[::-1]
    bad, refused = random.binomial(OPENED, 0.08, lines), 10 * (random.random(lines) < 0.05)
    goods, lot = random.integers(len(versions), size=lines), random.integers(10**6, size=lines)
    has_refused, has_bad = ((np.bincount(of, each) > 0).tolist() for each in (refused, bad))
    site_ids, supplier_ids, version_ids = ([each.pk.hex for each in rows] for rows in (sites, suppliers, versions))

    def delivery(place: int) -> tuple:
        at = connection.ops.adapt_datetimefield_value(now - timedelta(minutes=int(before[place])))
        return (_id(place + 1 << 40), site_ids[site[place]], supplier_ids[supplier[place]], f"DN-{place:07}", at, at,
                person.pk, _id(1), limits.pk.hex, "{}", "{}", "[]", "signed", False, has_refused[place], has_bad[place])

    def line(place: int, delivery: int, number: int, kind: int, lot: int, gone: int) -> tuple:
        return (_id(place + 1 << 8), _id(delivery + 1 << 40), number, version_ids[kind], 10, 10, f"L{lot:06}", "accept",
                "accept", "", 10 - gone, gone, 0)

    _copy("records_delivery", ("id", "site_id", "supplier_id", "docket_number", "arrived_at", "signed_at",
                               "receiver_id", "device_id", "limit_set_id", "document", "judgement", "noticed", "state",
                               "is_demo", "has_refused", "has_defective"), map(delivery, range(len(first))))
    _copy("records_docketline", ("id", "delivery_id", "number", "specification_version_id", "cartons_on_docket",
                                 "cartons_counted", "lot", "suggested", "decided", "departed_because", "accepted",
                                 "refused", "held"),
          map(line, range(lines), *(each.tolist() for each in (of, number, goods, lot, refused))))
    kind = "char(32)" if connection.vendor == "sqlite" else "uuid"
    _run(f"CREATE TEMPORARY TABLE found_bad (line_id {kind} PRIMARY KEY, bad integer)")
    _copy("found_bad", ("line_id", "bad"), ((_id(place + 1 << 8), each) for place, each in enumerate(bad.tolist())))


def _write_tallies() -> None:
    """As ``tallies.fresh_tallies`` would count them; sites are in UTC."""
    first, found = "CASE WHEN l.number = 1 THEN 1 ELSE 0 END", str(OPENED)
    told = {
        "line_id": "l.id", "delivery_id": "d.id", "supplier_id": "d.supplier_id", "site_id": "d.site_id",
        "arrived_at": "d.arrived_at", "specification_id": "v.specification_id", "species": "''",
        "presentation": "v.data ->> 'presentation'", "state": "v.data ->> 'state'", "deliveries": first,
        "deliveries_opened": first, "lines": "1", "delivered": "l.cartons_counted", "refused": "l.refused",
        "opened": found, "with_product": found, "with_sample": found, "defective": "f.bad",
        "product_cc": str(OPENED * 100), **{name: _words()[name].format(at="d.arrived_at") for name in _DAYS},
    }
    told |= {name: "0" for name in COUNTED if name not in told}
    _run(f"""
        INSERT INTO comparison_linetally ({", ".join(told)}) SELECT {", ".join(told.values())}
        FROM records_docketline l JOIN records_delivery d ON d.id = l.delivery_id JOIN found_bad f ON f.line_id = l.id
        JOIN records_specificationversion v ON v.id = l.specification_version_id ORDER BY l.id""")
    keys, sums = ", ".join(KEYS), ", ".join(f"SUM({name})" for name in COUNTED)
    _run(f"""
        INSERT INTO comparison_monthtally ({keys}, {", ".join(COUNTED)})
        SELECT {keys}, {sums} FROM comparison_linetally GROUP BY {keys}""")


def _write_below() -> None:
    """Cartons, readings and lots as the lines want them."""
    carton, kind = _words()["id"].format(of="l.id", last="n.n"), _words()["json"]
    numbers = " UNION ".join(f"SELECT {n} AS n" for n in range(1, OPENED + 1))
    _run(f"""
        INSERT INTO records_carton (id, line_id, position, is_defective, black_spot, data, derived)
        SELECT {carton}, l.id, n.n, n.n <= f.bad, '',
            CAST('{{"label": {{"lot": "' || l.lot || '"}}}}' AS {kind}), CAST('{{}}' AS {kind})
        FROM records_docketline l JOIN found_bad f ON f.line_id = l.id CROSS JOIN ({numbers}) n ORDER BY l.id, n.n""")
    _run(f"""
        INSERT INTO records_reading (delivery_id, carton_id, kind, value, unit, entered, entered_unit, method)
        SELECT l.delivery_id, {carton}, k.kind, 1, k.unit, '1', k.unit, ''
        FROM records_docketline l CROSS JOIN ({numbers}) n
        CROSS JOIN (SELECT 'product' AS kind, 'C' AS unit UNION SELECT 'sample', 'g') k ORDER BY l.id, n.n""")
    _run(f"""
        INSERT INTO records_linelot (line_id, lot, key, is_on_docket, labels)
        SELECT id, lot, lower(lot), 1 = 1, {OPENED} FROM records_docketline ORDER BY id""")


def _write_words() -> None:
    """As ``search_words.words_of`` gives them: a number whole, from its digits on, its last three and four signs."""
    for start, source, delivery, number, lot in (
        ("dn", "records_delivery d", "d.id", "substr(d.docket_number, 4)", "NULL"),
        ("l", "records_linelot w JOIN records_docketline l ON l.id = w.line_id", "l.delivery_id", "substr(w.lot, 2)",
         "w.id"),
    ):
        for word in (f"'{start}' || {number}", number, *(f"substr({number}, length({number}) - {n})" for n in (2, 3))):
            _run(f"INSERT INTO records_searchword (delivery_id, lot_id, word) "
                 f"SELECT {delivery}, {lot}, {word} FROM {source}")


def _words() -> dict[str, str]:
    return _SQLITE if connection.vendor == "sqlite" else _POSTGRESQL


def _id(number: int) -> str:
    return f"{number:032x}"


def _run(words: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(words)


def _copy(table: str, columns: tuple[str, ...], rows: Iterable[tuple]) -> None:
    names = ", ".join(columns)
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            marks = ", ".join(["%s"] * len(columns))
            cursor.executemany(f"INSERT INTO {table} ({names}) VALUES ({marks})", rows)  # type: ignore[arg-type]
            return
        with cursor.copy(f"COPY {table} ({names}) FROM STDIN") as copy:
            for row in rows:
                copy.write_row(row)


@contextmanager
def _without_indexes() -> Iterator[None]:
    """Indexes of the filled tables are made once, at the end."""
    names = ", ".join(f"'{name}'" for name in FILLED)
    asked = {
        "sqlite": "SELECT name, sql FROM sqlite_master WHERE type = 'index' AND sql LIKE 'CREATE INDEX%' "
                  f"AND tbl_name IN ({names})",
        "postgresql": f"SELECT indexname, indexdef FROM pg_indexes WHERE tablename IN ({names}) "
                      "AND indexname NOT IN (SELECT conname FROM pg_constraint)",
    }[connection.vendor]
    with connection.cursor() as cursor:
        cursor.execute(asked)
        indexes = cursor.fetchall()
        for name, _ in indexes:
            cursor.execute(f'DROP INDEX "{name}"')
        yield
        if connection.vendor == "postgresql":
            # Foreign keys that wait for the end of the transaction are checked now: no index is made before.
            connection.check_constraints()
        for _, words in indexes:
            cursor.execute(words)
