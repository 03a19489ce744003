"""Hold what the comparison says against groups whose truth is known."""
from datetime import date

from django.core.management.base import BaseCommand, CommandParser

from inspections.comparison.period import Period
from inspections.comparison.rates import comparison
from inspections.comparison.simulation import Truth, counted_of, power_at_best

SITES = {"A": 1.0, "B": 1.0, "C": 1.0}
SUPPLIERS = [f"S{number}" for number in range(1, 7)]
PERIOD = Period(date(2025, 7, 1), date(2026, 6, 30))


class Command(BaseCommand):
    help = "Make up groups with known suppliers and sites, and print what the comparison says of them."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--groups", type=int, default=200, help="groups for each row of the table (200)")
        parser.add_argument("--rate", type=float, default=0.08, help="usual share of defective cartons (0.08)")
        parser.add_argument("--seed", type=int, default=1)

    def handle(self, *args, groups: int, rate: float, seed: int, **options) -> None:
        alike, seeds = dict.fromkeys(SUPPLIERS, rate), range(seed, seed + groups)
        for likeness in (0.0, 0.05, 0.15):
            told = [rows_of(Truth(alike, SITES, months=6, likeness=likeness), each) for each in seeds]
            marked = sum(any(_is_worse(row) for row in rows.values()) for rows in told)
            moved = sum(row["over_time"]["shift"] is not None for rows in told for row in rows.values())
            self.stdout.write(
                f"equal suppliers, cartons of a delivery alike by {likeness:4.2f}: a supplier called worse in {marked} "
                f"of {groups} groups; a change over time told of {moved} of {groups * len(SUPPLIERS)} suppliers")
        for months in (1, 2, 3, 6):
            truth = Truth(alike | {"S1": 2 * rate}, SITES, months=months)
            found = sum(_is_worse(rows_of(truth, each)["S1"]) for each in seeds)
            best = power_at_best(Truth(alike, SITES, months=months), 2)
            self.stdout.write(
                f"twice the rate, 60 cartons a month: found after {months} months in {found} of {groups}; "
                f"{best * groups:.0f} by the best test that knew every true rate")
        self._strict(alike, seeds)

    def _strict(self, alike: dict[str, float], seeds: range) -> None:
        """A site that finds 2.5 times as many, and equal suppliers of whom one mostly delivers there."""
        truth = Truth(alike, SITES | {"A": 2.5}, weights={"A": {"S1": 6.0}})
        raw = compared = marked = 0.0
        for each in seeds:
            rows = rows_of(truth, each)
            row, rest = rows["S1"], [other for name, other in rows.items() if name != "S1"]
            others = sum(r["defective"] for r in rest) / sum(r["cartons_opened"] for r in rest)
            raw, compared, marked = raw + row["rate"] / others, compared + row["ratio"], marked + _is_worse(row)
        self.stdout.write(
            f"equal suppliers, one mostly at a strict site: as counted {raw / len(seeds):.2f} times the others, "
            f"compared {compared / len(seeds):.2f} times; called worse {marked:.0f} of {len(seeds)}")


def rows_of(truth: Truth, seed: int) -> dict[str, dict]:
    """The comparison's rows by the supplier's name."""
    return {row["supplier"]["name"]: row for row in comparison(counted_of(truth, seed), PERIOD)["rows"]}


def _is_worse(row: dict) -> bool:
    return row["luck"] is not None and row["luck"]["says"] == "more"
