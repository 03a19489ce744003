"""A verdict by pencil and paper: made from the printed texts of a worksheet and the page ``verdict.md``, nothing else.

No judgement is imported here on purpose: whoever reads the worksheet has none.
"""
import re
from decimal import Decimal

PAST, FINE, UNSURE = "past the limit", "within", "cannot tell"
SHORT_VALUE = {"size (count)", "net weight of one unit", "glaze over the declared",
               "mean net weight under the declared", "cartons short"}
DOUBTS = {"product temperature, tolerance", "species marks"}
SUBSTITUTION = "species on the label"
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


def is_hazard(row: dict) -> bool:
    return (row["name"], row["number"]) in {("foreign matter", "hazard"), ("smell", "chemical")}


def past(rows: list[dict]) -> list[dict]:
    return [row for row in rows if answer_to(row) == PAST]


def is_serious(row: dict) -> bool:
    return row["severity"] in ("critical", "major")


def is_defective(carton: dict) -> bool:
    """Once, on one ground or several; short value and doubts alone are no defect."""
    return any(
        row["severity"] == "critical"
        or (row["severity"] == "major" and row["name"] not in SHORT_VALUE | DOUBTS)
        for row in past(carton["checks"])
    )


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


def is_short(line: dict) -> bool:
    """Cartons did not come, the mean is short, prawns are smaller, or another short value is serious."""
    docket, counted = (entry(line["entries"], f"cartons {words}") for words in ("on the docket", "counted"))
    if docket is not None and counted is not None and int(counted) < int(docket):
        return True
    of_cartons = [row for carton in line["cartons"] for row in past(carton["checks"])]
    smaller = [row for row in of_cartons if row["name"] == "size (count)" and is_above(row)]
    mean = [row for row in past(line["checks"]) if row["name"] == "mean net weight under the declared"]
    rest = [row for row in [*of_cartons, *past(line["checks"])] if row["name"] in SHORT_VALUE and is_serious(row)]
    return bool(smaller or mean or rest)


def is_above(row: dict) -> bool:
    high = edges(row["limit"])[1]
    return high is not None and Decimal(re.findall(NUMBER, row["number"])[0]) >= high


def suggestion(line: dict) -> str:
    """Steps a to g of the page, the first that is true."""
    rows = [row for carton in line["cartons"] for row in past(carton["checks"])]
    everything = [*rows, *past(line["checks"])]
    planned, acceptance = planned_and_acceptance(line)
    defective = sum(1 for carton in line["cartons"] if is_defective(carton))
    asked = [(one["name"], int(one["made"]), int(one["asked"])) for one in line["must"]]
    if any(is_hazard(row) for row in rows):
        return "Hold"
    if any(row["severity"] == "critical" or (row["name"] == SUBSTITUTION and is_serious(row)) for row in everything):
        return "Reject"
    if defective > acceptance:
        return "Reject"
    if any(row["name"] in DOUBTS and is_serious(row) for row in rows):
        return "Hold"
    if any(made < wanted for _, made, wanted in asked) or len(line["cartons"]) < planned:
        return "Not ready"
    return "Accept with allowance" if defective or is_short(line) else "Accept"


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
