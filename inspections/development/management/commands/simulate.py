"""Hold what the comparison says against groups whose truth is known."""
from datetime import date, timedelta

from django.core.management.base import BaseCommand, CommandParser

from inspections.comparison.period import Period
from inspections.comparison.rates import comparison, luck_of
from inspections.comparison.simulation import LAST, Truth, counted_of, power_at_best

SITES = {"A": 1.0, "B": 1.0, "C": 1.0}
SUPPLIERS = [f"S{number}" for number in range(1, 7)]
PERIOD = Period(date(2025, 7, 1), date(2026, 6, 30))
#: Whether the suspect comes to a group that has known the others for a year, or all begin together.
BEGUN = {"the others known for a year": True, "all begun together": False}


class Command(BaseCommand):
    help = "Make up groups with known suppliers and sites, and print what the comparison says of them."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--groups", type=int, default=200, help="groups for each row of the table (200)")
        parser.add_argument("--rate", type=float, default=0.08, help="usual share of defective cartons (0.08)")
        parser.add_argument("--seed", type=int, default=1)

    def handle(self, *args, groups: int, rate: float, seed: int, **options) -> None:
        alike, seeds = dict.fromkeys(SUPPLIERS, rate), range(seed, seed + groups)
        for likeness in (0.0, 0.05, 0.15):
            for months in (3, 6):
                truth = Truth(alike, SITES, months=months, likeness=likeness)
                marked = sum(bool(worse_in(truth, each)) for each in seeds)
                self.stdout.write(f"equal suppliers, {months} months, cartons of a delivery alike by {likeness:4.2f}: "
                                  f"one called worse in {marked} of {groups} groups")
        truth = Truth(alike, SITES, months=6)
        moved = sum(row["over_time"]["shift"] is not None for each in seeds for row in rows_of(truth, each).values())
        self.stdout.write(f"equal suppliers, 6 months: a change over time told of {moved} of {groups * len(SUPPLIERS)}")
        for words, is_known in BEGUN.items():
            for times in (1, 2):
                truth = truth_of(alike | {"S1": times * rate}, is_known)
                looks = [looks_at(truth, each) for each in seeds]
                third, ever, others = (sum(map(told, looks)) for told in (
                    lambda look: "S1" in look[-1], lambda look: any("S1" in one for one in look),
                    lambda look: any(one - {"S1"} for one in look)))
                self.stdout.write(
                    f"{times} times the rate, 60 cartons a month for three months, {words}: called worse at the end of "
                    f"the third in {third} of {groups} groups, of one of the three in {ever}; another one in {others}")
        best = power_at_best(truth_of(alike, is_known=False), 2)
        self.stdout.write(f"the same for 3 months, by the best test that knew every true rate: {best * groups:.0f}")
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


def truth_of(rates: dict[str, float], is_known: bool) -> Truth:
    """A group in which the first supplier has brought goods for three months, the others for a year or as long."""
    return Truth(rates, SITES, months=12, since={"S1": 3}) if is_known else Truth(rates, SITES, months=3)


def looks_at(truth: Truth, seed: int) -> list[set[str]]:
    """Suppliers that are called worse by somebody who looks at the end of each of the last three months."""
    return [worse_in(truth, seed, until=LAST - timedelta(days=back)) for back in (60, 30, 0)]


def worse_in(truth: Truth, seed: int, *, until: date = LAST) -> set[str]:
    """Suppliers of a made-up group that are called worse."""
    found = counted_of(truth, seed, until=until)
    luck = luck_of(found)
    return {each.name for each in found.suppliers if luck.get(str(each.id), {}).get("says") == "more"}


def rows_of(truth: Truth, seed: int) -> dict[str, dict]:
    """The comparison's rows by the supplier's name."""
    return {row["supplier"]["name"]: row for row in comparison(counted_of(truth, seed), PERIOD)["rows"]}


def _is_worse(row: dict) -> bool:
    return row["luck"] is not None and row["luck"]["says"] == "more"
