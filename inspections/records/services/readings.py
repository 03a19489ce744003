"""Every measured value of a delivery as a row: what was entered, and what it is in °C or g."""
from collections.abc import Iterator

from inspections.records.judging import is_id
from inspections.records.models import Delivery, Reading, Thermometer
from inspections.trade.carton_facts import CartonFacts
from inspections.trade.facts import DeliveryFacts


def readings_of(delivery: Delivery, facts: DeliveryFacts) -> list[Reading]:
    """Unsaved rows for every reading of the delivery's document; readings left empty have none.

    Parameters
    ----------
    delivery : Delivery
        With its document, of which every entry can be used.
    facts : DeliveryFacts
        The same document as the judgement read it, in °C and g.
    """
    probes = {str(one) for one in Thermometer.objects.filter(site=delivery.site).values_list("pk", flat=True)}
    return [
        Reading(
            delivery=delivery, carton_id=carton_id, kind=kind, value=value, unit=unit, entered=reading["entered"],
            entered_unit=reading["unit"], method=method or "",
            thermometer_id=thermometer_id if is_id(thermometer_id) and thermometer_id in probes else None,
        )
        for carton_id, kind, reading, value, unit, method, thermometer_id in _entries(delivery.document, facts)
        if value is not None
    ]


def _entries(document: dict, facts: DeliveryFacts) -> Iterator[tuple]:
    """Carton id, kind, reading, value, unit, method and thermometer of each place that may hold a reading."""
    vehicle = document.get("vehicle") or {}
    yield None, "vehicle_air", vehicle.get("air"), facts.seen["air_c"], "C", "", vehicle.get("thermometer_id")
    for line, read in zip(document["lines"], facts.lines, strict=True):
        for carton, its in zip(line.get("cartons") or [], read.cartons, strict=True):
            yield from _of_carton(carton, its)


def _of_carton(carton: dict, its: CartonFacts) -> Iterator[tuple]:
    at = carton["id"]
    probed = carton.get("temperature") or {}
    yield at, "product", probed.get("product"), its.product_c, "C", probed.get("method"), probed.get("thermometer_id")
    if its.label:
        yield at, "label_net", carton["label"].get("net"), its.label.seen["net"], "g", "", None
    weights = carton.get("weights") or {}
    for name in ("gross", "tare", "glazed", "deglazed"):
        yield at, name, weights.get(name), getattr(its, f"{name}_g"), "g", "", None
    if its.sample:
        sample = carton["sample"]
        yield at, "sample", sample.get("weight"), its.sample.weight_g, "g", sample.get("weight_is"), None
        yield at, "sample_largest", sample.get("largest"), its.sample.largest_g, "g", "", None
        yield at, "sample_smallest", sample.get("smallest"), its.sample.smallest_g, "g", "", None
