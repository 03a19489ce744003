"""How long the desk's pages take on a made-up group, beside the plain SQL over the raw rows."""
import contextlib
import gc
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from itertools import count
from pathlib import Path
from statistics import median, quantiles

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import connection, transaction
from django.db.models import F
from django.test import Client
from django.utils import timezone

from inspections.comparison.models import LineTally, MonthTally, TallyState
from inspections.comparison.period import Period
from inspections.comparison.table_files import write_file
from inspections.comparison.tables import TABLES, rows_of
from inspections.comparison.tallies import tally_delivery, wrong_among, wrong_months
from inspections.development.made_up_group import YEARS, make_group
from inspections.people.models import Site
from inspections.records.models import Delivery, LineLot, Specification, Supplier

#: What each page would have to ask were there no tallies, words and marks.
_OPENED = """
SELECT d.supplier_id, d.site_id, l.specification_version_id, COUNT(*), SUM(CASE WHEN c.is_defective THEN 1 ELSE 0 END)
FROM records_carton c JOIN records_docketline l ON l.id = c.line_id JOIN records_delivery d ON d.id = l.delivery_id
WHERE d.arrived_at >= %s GROUP BY 1, 2, 3"""
_BY_ENGINE = """
SELECT supplier, site, specification, SUM(opened), SUM(defective) FROM '{path}' GROUP BY 1, 2, 3"""
_NEWEST = "SELECT id, docket_number FROM records_delivery ORDER BY arrived_at DESC, id DESC LIMIT 50"
_WORDS = """
SELECT COUNT(*) FROM records_delivery d JOIN people_site s ON s.id = d.site_id
WHERE d.docket_number LIKE %s OR d.id IN (SELECT delivery_id FROM records_docketline WHERE lot LIKE %s)"""
_REFUSED = """
SELECT COUNT(*) FROM records_delivery WHERE id IN
(SELECT delivery_id FROM records_docketline WHERE refused > 0 OR held > 0)"""

AFTER_SIGNING = ", anew"
_SIGNED = count()


class Command(BaseCommand):
    help = "Measure the comparison, the lists and the searches on a made-up group in a database of its own."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--cartons", type=int, nargs="+", default=[10_000, 100_000], help="opened cartons")
        parser.add_argument("--rounds", type=int, default=9, help="times that each page is asked for (9)")
        parser.add_argument("--postgresql", action="store_true", help="a throw-away PostgreSQL instead of SQLite")
        parser.add_argument("--inside", action="store_true", help="measure in the database that the settings name")

    def handle(self, *args, cartons: list[int], rounds: int, postgresql: bool, inside: bool, **options) -> None:
        if inside:
            self._measure(cartons[0], max(2, rounds))
            return
        for number in cartons:
            with _database(postgresql) as environment:
                words = [sys.executable, "manage.py", "bench_comparison", "--inside", "--cartons", str(number),
                         "--rounds", str(rounds)]
                if subprocess.run(words, cwd=settings.BASE_DIR, env=environment).returncode:
                    raise CommandError(f"Measuring {number} cartons broke off; see above.")

    def _measure(self, cartons: int, rounds: int) -> None:
        call_command("migrate", verbosity=0)
        if Delivery.objects.exists():
            raise CommandError("This database holds deliveries. Nothing was changed. Measure in an empty one.")
        begun = time.perf_counter()
        person = make_group(cartons)
        took = time.perf_counter() - begun
        self.stdout.write(f"\n{cartons:,} opened cartons, {LineTally.objects.count():,} docket lines, "
                          f"{Delivery.objects.count():,} deliveries on {connection.vendor}; written in {took:.0f} s")
        _hold_against_rows()
        self.stdout.write(f"{'':<34}{'first':>9}{'p50':>9}{'p95':>9}{'cpu':>9}{'raw SQL':>10}{'cpu':>9}  ms")
        client = Client(headers={"host": "localhost"})
        client.force_login(person, backend="django.contrib.auth.backends.ModelBackend")
        _ask(client, "/api/comparison")
        # as the web server does when it has started (inspections.asgi)
        gc.collect()
        gc.freeze()
        for name, address, raw, values in _pages():
            # after a signing nothing that was worked out holds any more
            before = _sign_one if name.endswith(AFTER_SIGNING) else None
            first, times, busy = _timed(lambda address=address: _ask(client, address), rounds, before)
            plain = ""
            if raw is not None:
                _, raw_times, raw_busy = _timed(lambda r=raw, v=values: _sql(r, v), 2)
                plain = f"{median(raw_times):>10.0f}{raw_busy:>9.0f}"
            self.stdout.write(f"{name:<34}{first:>9.0f}{median(times):>9.0f}{_p95(times):>9.0f}{busy:>9.0f}{plain}")
        self._beside_parquet()
        delivery = Delivery.objects.first()
        _, times, busy = _timed(lambda: _tally_again(delivery), 50)
        self.stdout.write(
            f"{'tallies of a delivery, at signing':<34}{'':>9}{median(times):>9.1f}{_p95(times):>9.1f}{busy:>9.1f}")

    def _beside_parquet(self) -> None:
        """The same sums by a kept engine over the table of docket lines, as anybody may take it."""
        table, today = TABLES["docket_lines"], timezone.localdate()
        period = Period(today - timezone.timedelta(days=366 * YEARS), today + timezone.timedelta(days=1))
        with tempfile.TemporaryDirectory(prefix="underlid-bench-") as folder:
            path = Path(folder) / "lines.parquet"
            begun = time.perf_counter()
            write_file(table, (row for _, row in rows_of(table, Site.objects.all(), period)), path, "parquet")
            self.stdout.write(f"docket lines as Parquet: {path.stat().st_size / 1e6:.1f} MB, "
                              f"written in {time.perf_counter() - begun:.1f} s")
            try:
                import duckdb
            except ImportError:
                self.stdout.write("DuckDB is not installed here: nothing was measured beside it.")
                return
            engine = duckdb.connect()
            asked = _BY_ENGINE.format(path=path)
            first, times, busy = _timed(lambda: engine.execute(asked).fetchall(), 9)
            self.stdout.write(f"{'DuckDB over it, three years':<34}{first:>9.0f}{median(times):>9.0f}"
                              f"{_p95(times):>9.0f}{busy:>9.0f}")


def _pages() -> list[tuple[str, str, str | None, list]]:
    year, years = (timezone.localdate().replace(day=1, month=1) - timezone.timedelta(days=365 * back)
                   for back in (0, YEARS))
    docket = Delivery.objects.order_by("-arrived_at").values_list("docket_number", flat=True)[20]
    lot, site = LineLot.objects.order_by("pk").values_list("lot", flat=True)[20], Site.objects.first()
    supplier, goods = Supplier.objects.first(), Specification.objects.first()
    return [
        ("comparison, twelve months", "/api/comparison", _OPENED, [year]),
        ("comparison, three years", f"/api/comparison?from={years}", _OPENED, [years]),
        ("comparison, 12 months" + AFTER_SIGNING, "/api/comparison", None, []),
        ("comparison, 3 years" + AFTER_SIGNING, f"/api/comparison?from={years}", None, []),
        ("one supplier" + AFTER_SIGNING, f"/api/comparison/suppliers/{supplier.pk}", None, []),
        ("measures of one supplier" + AFTER_SIGNING, f"/api/measures?by=month&supplier={supplier.pk}", None, []),
        ("measures of one specification" + AFTER_SIGNING, f"/api/measures?by=site&specification={goods.pk}", None, []),
        ("measures by supplier" + AFTER_SIGNING, "/api/measures?by=supplier", None, []),
        ("measures by month" + AFTER_SIGNING, f"/api/measures?by=month&from={years}", None, []),
        ("comparison, one site" + AFTER_SIGNING, f"/api/comparison?site={site.pk}", None, []),
        ("deliveries, newest", "/api/deliveries", _NEWEST, []),
        ("deliveries of one site", f"/api/deliveries?site={site.pk}", None, []),
        ("deliveries, page 50", "/api/deliveries?page=50", None, []),
        ("deliveries, refused", "/api/deliveries?refused=yes", _REFUSED, []),
        ("search by docket", f"/api/deliveries?q={docket}", _WORDS, [f"%{docket}%"] * 2),
        ("search by supplier", "/api/deliveries?q=Supplier 07", None, []),
        ("search by lot", f"/api/deliveries?q={lot}", _WORDS, [f"%{lot}%"] * 2),
        ("where is this lot", f"/api/lots?q={lot}", None, []),
        ("table of months, a page", "/api/tables/months", None, []),
        ("table of cartons, a page", "/api/tables/cartons", None, []),
    ]


@contextlib.contextmanager
def _database(postgresql: bool):
    """The environment of an empty database that is thrown away."""
    from inspections.development.services import NoService, PostgreSQL, brought_up

    with contextlib.ExitStack() as stack:
        folder = stack.enter_context(tempfile.TemporaryDirectory(prefix="underlid-bench-"))
        (Path(folder) / "static").mkdir()
        try:
            address = stack.enter_context(brought_up(PostgreSQL)).url if postgresql else f"sqlite:///{folder}/bench.sqlite3"
        except NoService as trouble:
            raise CommandError(f"{trouble}. Nothing was measured. Leave --postgresql out.") from trouble
        yield {**os.environ, "UNDERLID_DATA": folder, "DATABASE_URL": address}


def _ask(client: Client, address: str) -> None:
    answer = client.get(address)
    if answer.status_code != 200:
        raise CommandError(f"{address} answered {answer.status_code}.")


def _sql(raw: str, values: list) -> None:
    with connection.cursor() as cursor:
        cursor.execute(raw, values)
        cursor.fetchall()


def _sign_one() -> None:
    """What a signing changes: one month of one supplier, site and kind of goods, another one each time."""
    now = MonthTally.objects.filter(month=MonthTally.objects.latest("month").month)
    row = now.order_by("pk")[next(_SIGNED) * 7 % now.count()]
    MonthTally.objects.filter(pk=row.pk).update(**{name: F(name) + more for name, more in (
        ("lines", 1), ("deliveries", 1), ("deliveries_opened", 1), ("opened", 3), ("defective", 1))})
    if not TallyState.objects.filter(site=row.site_id).update(changes=F("changes") + 1):
        TallyState.objects.create(site_id=row.site_id, changes=1)


def _tally_again(delivery: Delivery) -> None:
    with transaction.atomic():
        LineTally.objects.filter(delivery=delivery).delete()
        tally_delivery(delivery)
        transaction.set_rollback(True)


def _timed(
    ask: Callable[[], None], rounds: int, before: Callable[[], None] | None = None,
) -> tuple[float, list[float], float]:
    """The first time, the others, and their processor time here, which a busy machine hardly changes; ms."""
    times, busy = [], []
    for _ in range(rounds + 1):
        if before:
            before()
        begun, begun_busy = time.perf_counter(), time.process_time()
        ask()
        times.append((time.perf_counter() - begun) * 1000)
        busy.append((time.process_time() - begun_busy) * 1000)
    return times[0], times[1:], median(busy[1:])


def _p95(times: list[float]) -> float:
    return quantiles(times, n=20, method="inclusive")[-1]


def _hold_against_rows() -> None:
    """What is measured must be what signing writes: some of the made-up tallies against a fresh count."""
    ids = list(Delivery.objects.order_by("pk").values_list("pk", flat=True)[:200])
    if wrong_among(ids) or list(wrong_months()):
        raise CommandError("The made-up tallies are not what a fresh count gives.")
