"""What does the verdict on a docket line give to claim?

Refused cartons and cartons that did not come are claimed whole; for what was kept the allowances of the judgement
are turned into sums (``amounts``). What is not there can be of no lower grade: the weight that is claimed as short is
taken off before grade and quality are reckoned. The price is that of the order, never another supplier's; the price
of the grade that came is the newest that the same supplier was ordered it at, and is left open where there is none.
"""
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from inspections.claims.amounts import plain, sum_words, unrounded
from inspections.claims.currencies import rounded
from inspections.evidence.found_page import found_of
from inspections.records.models import DocketLine, OrderLine

_TENTH, _GRAM = Decimal("0.1"), Decimal("0.001")
#: Allowance of the judgement -> ground of the claim; short weight is taken apart below.
_PERCENT = {"quality": "quality", "uniformity": "uniformity"}


@dataclass(frozen=True)
class Line:
    """A docket line as signed: its part of document and judgement, and the specification it was judged by."""

    entered: dict
    judged: dict
    ordered: dict


def line_of(row: DocketLine) -> Line:
    """The line as its delivery keeps it."""
    document, judgement = row.delivery.document, row.delivery.judgement
    at = next(index for index, line in enumerate(document["lines"]) if line["id"] == str(row.pk))
    return Line(document["lines"][at], judgement["lines"][at], row.specification_version.to_json())


def what_fell_short(line: Line) -> list[dict]:
    """The findings of the line that are more than a note: text, severity, limit and whose limit it is."""
    plan = (line.entered.get("sampling") or {}).get("plan") or ""
    told = [found_of(reason, line.ordered, plan) for reason in line.judged["reasons"] if reason["severity"] != "note"]
    return [{"text": one.text, "severity": one.severity, "limit": one.limit, "whose": one.whose} for one in told]


def items_of(row: DocketLine, currency: str) -> list[dict]:
    """The items of a claim as the verdict gives them.

    Parameters
    ----------
    row : DocketLine
    currency : str

    Returns
    -------
    list of dict
        See ``item``; empty where nothing was refused, missing or taken with an allowance.
    """
    line = line_of(row)
    price, net_kg = price_of(row), Decimal(line.ordered["carton_net_g"]) / 1000
    priced = {} if price is None else {"price": price}
    told: list[tuple[str, dict[str, Decimal]]] = []
    for ground, cartons in (("refused", row.refused), ("short_cartons", row.cartons_on_docket - row.cartons_counted)):
        if cartons > 0:
            told.append((ground, {"cartons": Decimal(cartons), "net_kg": net_kg, **priced}))
    kept = row.accepted + row.held
    told += _allowed(line, row, kept, net_kg, priced)
    return [item(ground, figures, currency) for ground, figures in told]


def item(ground: str, figures: dict[str, Decimal], currency: str) -> dict:
    """An item as JSON: ``amount`` and ``computed`` are text, None while a figure is missing; ``reason`` of a change."""
    amount = unrounded(ground, figures)
    told = None if amount is None else f"{rounded(amount, currency):f}"
    return {"ground": ground, "figures": {name: plain(value) for name, value in figures.items()}, "amount": told,
            "computed": told, "sum": sum_words(ground, figures, currency), "reason": ""}


def price_of(row: DocketLine) -> Decimal | None:
    """Price per kg of the delivery's own order for the product of the line; None where the order has none."""
    lines = OrderLine.objects.filter(order=row.delivery.order_id, order__supplier=row.delivery.supplier_id,
                                     specification_version=row.specification_version_id)
    return lines.values_list("price_per_kg", flat=True).first()


def price_of_grade(row: DocketLine, grade: str) -> Decimal | None:
    """The newest price per kg that this supplier was ordered the same goods of another grade at."""
    same = {name: row.specification_version.data[name] for name in ("species_code", "presentation", "state")}
    lines = OrderLine.objects.filter(order__supplier=row.delivery.supplier_id, order__site=row.delivery.site_id,
                                     price_per_kg__isnull=False, specification_version__data__grade=grade,
                                     **{f"specification_version__data__{name}": value for name, value in same.items()})
    return lines.order_by("-order__expected_on").values_list("price_per_kg", flat=True).first()


def _allowed(line: Line, row: DocketLine, kept: int, net_kg: Decimal, priced: dict) -> list[tuple[str, dict]]:
    told, short_kg = [], Decimal(0)
    by_basis = [(one["basis"], one) for one in line.judged["allowances"]]
    for basis, one in by_basis:
        if basis == "short_weight":
            ground, figures, kg = _short_weight(line, one, kept, priced)
            told.append((ground, figures))
            short_kg += kg
        elif basis == "label_weight":
            kg = _whole_grams(one["quantity"])
            told.append(("label_weight", {"kg": kg, **priced}))
            short_kg += kg
    there_kg = max(kept * net_kg - short_kg, Decimal(0))
    for basis, one in by_basis:
        if basis == "grade":
            told.append(("grade", {"kg": there_kg, **priced, **_delivered(line, row)}))
        elif basis in _PERCENT:
            percent = Decimal(str(one["quantity"])).quantize(_TENTH, rounding=ROUND_HALF_UP)
            told.append((_PERCENT[basis], {"kg": there_kg, **priced, "percent": percent}))
    return told


def _short_weight(line: Line, allowed: dict, kept: int, priced: dict) -> tuple[str, dict, Decimal]:
    """The mean shortage of all units that were kept where the mean is short; else what single units are short."""
    mean = next((one for one in line.judged["reasons"] if one["code"] == "NET-MEAN"), None)
    if mean is None:
        kg = _whole_grams(allowed["quantity"])
        return "short_units", {"kg": kg, **priced}, kg
    declared, found = (Decimal(str(mean["facts"][name])).quantize(_TENTH, rounding=ROUND_HALF_UP)
                       for name in ("declared_g", "mean_g"))
    units = Decimal(line.ordered["units_per_carton"])
    figures = {"cartons": Decimal(kept), "units": units, "declared_g": declared, "found_g": found, **priced}
    return "short_weight", figures, kept * units * (declared - found) / 1000


def _delivered(line: Line, row: DocketLine) -> dict[str, Decimal]:
    beyond = next((one for one in line.judged["reasons"] if one["code"] == "COUNT-BEYOND"), None)
    found = price_of_grade(row, beyond["facts"]["nearest"]) if beyond else None
    return {} if found is None else {"price_delivered": found}


def _whole_grams(kg: float) -> Decimal:
    return Decimal(str(kg)).quantize(_GRAM, rounding=ROUND_HALF_UP)
