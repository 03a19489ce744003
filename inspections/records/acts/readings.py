"""Every measured value of a delivery as a row: what was entered, and what it is in °C or g."""
from collections.abc import Iterator

from inspections.records.judging import is_id
from inspections.records.models import Delivery, Reading, Thermometer
from inspections.trade.quantities import to_celsius, to_grams

WEIGHTS = ("gross", "tare", "glazed", "deglazed")


def readings_of(delivery: Delivery) -> list[Reading]:
    """Unsaved rows for every reading of the delivery's document; readings left empty have none."""
    probes = {str(one) for one in Thermometer.objects.filter(site=delivery.site).values_list("pk", flat=True)}
    rows = []
    for carton_id, kind, reading, method, thermometer_id in _entries(delivery.document):
        if not reading or not str(reading.get("entered") or "").strip():
            continue
        is_cold = reading["unit"] in ("C", "F")
        rows.append(
            Reading(
                delivery=delivery, carton_id=carton_id, kind=kind,
                value=to_celsius(reading) if is_cold else to_grams(reading), unit="C" if is_cold else "g",
                entered=reading["entered"], entered_unit=reading["unit"], method=method or "",
                thermometer_id=thermometer_id if is_id(thermometer_id) and thermometer_id in probes else None,
            )
        )
    return rows


def _entries(document: dict) -> Iterator[tuple]:
    """Carton id, kind, reading, method and thermometer of each place that may hold a reading."""
    vehicle = document.get("vehicle") or {}
    yield None, "vehicle_air", vehicle.get("air"), "", vehicle.get("thermometer_id")
    for line in document["lines"]:
        for carton in line.get("cartons") or []:
            yield from _of_carton(carton)


def _of_carton(carton: dict) -> Iterator[tuple]:
    at = carton["id"]
    temperature = carton.get("temperature") or {}
    yield at, "product", temperature.get("product"), temperature.get("method"), temperature.get("thermometer_id")
    yield at, "label_net", (carton.get("label") or {}).get("net"), "", None
    for name in WEIGHTS:
        yield at, name, (carton.get("weights") or {}).get(name), "", None
    sample = carton.get("sample") or {}
    yield at, "sample", sample.get("weight"), sample.get("weight_is"), None
    for name in ("largest", "smallest"):
        yield at, f"sample_{name}", sample.get(name), "", None
