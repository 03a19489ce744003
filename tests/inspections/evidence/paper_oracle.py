"""A verdict by pencil and paper: made from the printed texts of a worksheet and the page ``verdict.md``, nothing else.

No judgement is imported here on purpose: whoever reads the worksheet has none.
"""
import re
from decimal import Decimal

PAST, FINE, UNSURE = "past the limit", "within", "cannot tell"
FAULTS = {"hazard", "unfit", "sort_refuse", "sort_hold", "hold", "defect"}
NUMBER = r"-?[0-9]+(?:\.[0-9]+)?"


def alike(text: str) -> str:
    return re.sub(r"\s", "", text).lower()


def answer_to(row: dict) -> str:
    """The answer of a row, from its number, comparison and limit."""
    number, comparison, limit = row["number"], row["comparison"], row["limit"]
    if limit.startswith(("from ", "below ")) and not comparison:
        return range_answer(number, limit)
    if comparison in ("at most", "below", "at least", "above"):
        value, bound = Decimal(number), Decimal(limit)
        is_fine = {"at most": value <= bound, "below": value < bound, "at least": value >= bound,
                   "above": value > bound}[comparison]
    elif comparison == "is":
        is_fine = number == limit or all(part == limit for part in number.split(" and "))
    elif comparison == "is not":
        is_fine = number != limit
    elif comparison == "is one of":
        is_fine = alike(number) in [alike(one) for one in limit.split(",")]
    elif comparison == "within 1 g of":
        grams = Decimal(number.removesuffix(" g"))
        is_fine = any(abs(grams - Decimal(one)) <= 1 for one in re.findall(NUMBER, limit))
    elif comparison == "is, blanks and capitals aside,":
        is_fine = alike(number) == alike(limit)
    else:
        return row["answer"]
    return FINE if is_fine else PAST


def edges(limit: str) -> tuple[Decimal | None, Decimal | None]:
    low, high = re.search(rf"from ({NUMBER})", limit), re.search(rf"below ({NUMBER})", limit)
    return (Decimal(low[1]) if low else None), (Decimal(high[1]) if high else None)


def range_answer(number: str, limit: str) -> str:
    """A count and its range against a size: all of it in, all of it out, or too close to tell."""
    value, least, most = (Decimal(one) for one in re.findall(NUMBER, number))
    low, high = edges(limit)

    def is_in(count: Decimal) -> bool:
        return (low is None or count >= low) and (high is None or count < high)

    if is_in(value):
        return FINE if is_in(least) and is_in(most) else UNSURE
    is_out = (high is not None and least >= high) or (low is not None and most < low)
    return PAST if is_out else UNSURE


def past(rows: list[dict]) -> list[dict]:
    return [row for row in rows if answer_to(row) == PAST]


def is_serious(row: dict) -> bool:
    return row["severity"] in ("critical", "major")


def effects(part: dict) -> set[str]:
    """What the rows past their limit lead to."""
    return {row["effect"] for row in past(part["checks"])}


def is_defective(carton: dict) -> bool:
    """Once, on one ground or several; short value and wrapping alone are no fault."""
    return bool(effects(carton) & FAULTS)


def entry(entries: list[dict], name: str) -> str | None:
    return next((one["entered"] for one in entries if one["name"] == name), None)


def planned_and_acceptance(line: dict) -> tuple[int, int]:
    """The plan as drawn, held against its table for either number of cartons."""
    drawn, *tables = line["plans"]
    planned, acceptance = max(1, int(drawn["open"] or 0)), int(drawn["accept"] or 0)
    if tables:
        planned = max(planned, min(int(one["open"]) for one in tables))
        acceptance = min(acceptance, max(int(one["accept"]) for one in tables))
    counted = entry(line["entries"], "cartons counted")
    return (planned if counted is None else min(planned, int(counted))), acceptance


def suggestion(line: dict) -> str:
    """Steps a to g of the page, the first that is true."""
    sheet = Counted(line)
    if any("hazard" in one for one in sheet.cartons):
        return "Hold"
    if sheet.is_refused():
        return "Reject"
    if sheet.is_held():
        return "Hold"
    if sheet.has_more_to_do():
        return "Hold" if entry(line["entries"], "no more opened, because") else "Not ready"
    if any(one["answer"] == "missing" for one in line["must"]):
        return "Not ready"
    return "Accept with allowance" if sheet.is_less() else "Accept"


class Counted:
    """What is counted on the sheet: cartons by what their rows lead to, and the numbers of the plan."""

    def __init__(self, line: dict) -> None:
        self.line, self.cartons = line, [effects(carton) for carton in line["cartons"]]
        self.beyond = [carton["is_beyond_chance"] for carton in line["cartons"]]
        tally = line["tally"]
        self.opened, self.bad, self.shown = len(self.cartons), self.of("unfit", "defect"), sum(self.beyond)
        self.planned, self.accepts = planned_and_acceptance(line)
        self.last, self.rejection, self.total = (int(tally[name]) for name in ("last", "rejection", "total"))
        counted = entry(line["entries"], "cartons counted")
        self.counted = None if counted is None else int(counted)
        told = entry(line["entries"], "labels read, of which differ")
        self.read, self.differ = (int(one) for one in told.split(", ")) if told else (0, 0)
        self.is_whole = self.counted is not None and self.opened >= self.counted > 0
        self.is_low = self.bad == self.opened > 0 and self.shown == 0

    def of(self, *wanted: str) -> int:
        return sum(1 for one in self.cartons if one & set(wanted))

    def refused(self) -> list[bool]:
        return [
            bool(one & {"unfit", "sort_refuse"}) or ("defect" in one and (beyond or not (self.is_whole or self.is_low)))
            for one, beyond in zip(self.cartons, self.beyond, strict=True)
        ]

    def is_over(self, bad: int) -> bool:
        if bad == 0:
            return False
        if self.opened >= self.planned and bad == self.opened:
            return True
        return bad >= self.rejection or (self.opened >= self.total and bad > self.last)

    def is_sorted(self) -> bool:
        return self.counted is not None and self.read > 0 and self.read >= self.counted

    def is_refused(self) -> bool:
        if self.is_whole:
            return all(self.refused())
        differing = self.of("sort_refuse")
        if differing and self.opened >= self.planned and differing == self.opened:
            return True
        if differing and self.is_sorted() and self.differ >= (self.counted or 0):
            return True
        return self.is_over(self.bad) and self.is_over(self.shown)

    def is_held(self) -> bool:
        is_by_line = bool(effects(self.line) & {"hold", "doubt"})
        if self.is_whole:
            left = [one for one, refused in zip(self.cartons, self.refused(), strict=True) if not refused]
            return is_by_line or (bool(left) and all(one & {"hold", "doubt", "sort_hold"} for one in left))
        papers = self.of("sort_hold")
        is_all = papers > 0 and papers == self.opened and papers >= self.planned
        return is_all or is_by_line or self.of("unfit", "hold", "doubt") > 0

    def has_more_to_do(self) -> bool:
        if self.is_whole:
            return False
        is_second_due = self.bad > self.accepts and self.opened < self.total and not self.is_low
        return is_second_due or (self.of("sort_refuse", "sort_hold") > 0 and not self.is_sorted())

    def is_less(self) -> bool:
        """Value short, something set aside, or an allowance worked out on the sheet."""
        rows = [row for part in (self.line, *self.line["cartons"]) for row in past(part["checks"])]
        is_money = any(row["effect"] in ("value", "wrap") and is_serious(row) for row in rows)
        clumped = sum(1 for row in rows if row["code"] == "CLUMPED" and row["effect"] == "quality")
        is_set_aside = any(self.refused()) or self.of("hold", "doubt", "sort_hold") > 0
        return is_money or is_set_aside or clumped == self.opened > 0 or bool(self.line["allowances"])


def left_and_right(text: str) -> tuple[float, float] | None:
    """A printed sum worked out anew and the result printed beside it; None where it is no plain sum."""
    text = text.split(";")[0].split(",")[0]
    if text.count("=") != 1 or re.search(r"\bto\b|\bR\b|taken", text.split("=")[0]):
        return None
    left, right = text.split("=")
    left = left.replace(" less ", " - ")
    left = re.sub(r"root of ([0-9]+)", r"\1 ** 0.5", left)
    left = re.sub(r"root of (.+)", r"\1 ** 0.5", left).replace("^", " ** ")
    left = re.sub(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", "", left)
    left = re.sub(r"\bx\b", "*", re.sub(r"[A-Za-z°%]{2,}|\b[g]\b", "", left))
    if not re.fullmatch(r"[0-9.\s()+\-*/]+", left):
        return None
    return eval(left), float(re.search(NUMBER, right)[0])  # digits and signs only, see above
