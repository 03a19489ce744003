"""Hold what the comparison says against groups whose truth is known."""
from collections.abc import Sequence
from datetime import date, timedelta
from statistics import mean

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
    help = "Make up groups with known suppliers and sites; print what is said of them, beside what is claimed."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--groups", type=int, default=200, help="groups for each row of the table (200)")
        parser.add_argument("--rate", type=float, default=0.08, help="usual share of defective cartons (0.08)")
        parser.add_argument("--seed", type=int, default=1)

    def handle(self, *args, groups: int, rate: float, seed: int, **options) -> None:
        alike, self.seeds = dict.fromkeys(SUPPLIERS, rate), range(seed, seed + groups)
        self.stdout.write(f"{groups} groups a row, {len(SUPPLIERS)} suppliers with 60 opened cartons a month each")
        for likeness in (0.0, 0.05, 0.15):
            for months in (3, 6):
                truth = Truth(alike, SITES, months=months, likeness=likeness)
                marked = sum(bool(worse_in(truth, each)) for each in self.seeds)
                self._row(f"equal suppliers, {months} months, cartons of a delivery alike by {likeness:4.2f}: groups "
                          "with one called worse", marked, "at most", 0.05)
        truth = Truth(alike, SITES, months=6)
        moved = sum(row["over_time"]["shift"] is not None for each in self.seeds
                    for row in rows_of(truth, each).values())
        self._row("equal suppliers, 6 months: suppliers of whom a change is told", moved, "at most", 0.01, SUPPLIERS)
        self._strict(alike)
        for words, is_known in BEGUN.items():
            self._looks(alike, rate, words, is_known)

    def _row(self, what: str, found: int, bound: str, share: float, of: Sequence[str] = ("group",)) -> None:
        """A count beside what is claimed; where the truth lies just at the claim, luck carries half of them beyond."""
        most = len(self.seeds) * len(of)
        holds = found <= share * most if bound == "at most" else found >= share * most
        self.stdout.write(f"{what:<104}{found:>5} of {most:<5} {bound} {share:4.0%} {'holds' if holds else 'MISSED'}")

    def _looks(self, alike: dict[str, float], rate: float, words: str, is_known: bool) -> None:
        """Whoever looks at the end of each of three months at a supplier of the usual rate, and of twice that."""
        for times in (1, 2):
            truth = truth_of(alike | {"S1": times * rate}, is_known)
            looks = [looks_at(truth, each) for each in self.seeds]
            bound = ("at least", 0.80) if times == 2 else ("at most", 0.05)
            last, ever = (sum(map(told, looks)) for told in (
                lambda look: "S1" in look[-1], lambda look: any("S1" in one for one in look)))
            self._row(f"{times} x the rate, {words}: called worse at the end of the third month", last, *bound)
            self._row(f"{times} x the rate, {words}: called worse at the end of one of three", ever, *bound)
            others = sum(any(one - {"S1"} for one in look) for look in looks)
            self._row(f"{times} x the rate, {words}: another one called worse, of three looks", others, "at most", 0.05)
        told, untold = (power_at_best(truth_of(alike, is_known), 2, is_told=is_told) for is_told in (True, False))
        self.stdout.write(f"  no test at the same error finds more in one look than {untold:.1%}, or {told:.1%} "
                          "if it were told the others' rate")

    def _strict(self, alike: dict[str, float]) -> None:
        """A site that finds 2.5 times as many, and equal suppliers of whom one mostly delivers there."""
        truth = Truth(alike, SITES | {"A": 2.5}, weights={"A": {"S1": 6.0}})
        raw, compared, marked = [], [], 0
        for each in self.seeds:
            rows = rows_of(truth, each)
            row, rest = rows["S1"], [other for name, other in rows.items() if name != "S1"]
            others = sum(r["defective"] for r in rest) / sum(r["cartons_opened"] for r in rest)
            raw.append(row["rate"] / others)
            compared.append(row["ratio"])
            marked += _is_worse(row)
        self._row("equal suppliers, one mostly at a strict site: groups with that one called worse", marked,
                  "at most", 0.05)
        self.stdout.write(f"  as counted {mean(raw):.3f} times the others, compared {mean(compared):.3f} times "
                          f"({'holds' if abs(mean(compared) - 1) < 0.05 else 'MISSED'}: within 5 % of 1)")


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
