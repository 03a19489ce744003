"""A delivery is signed: the document becomes a record that is only ever added to."""
from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from inspections.people.models import Person, Site
from inspections.records.black_spot import found_in
from inspections.records.judging import Judged, difference, judged
from inspections.records.models import Carton, Delivery, DocketLine, Finding, Reading, SpecificationVersion
from inspections.records.search_words import write_search_words
from inspections.records.services.ids import need_own_ids
from inspections.records.services.noticed import noticed_at_signing
from inspections.records.services.photo import are_in_place, use_photos, utc_moment
from inspections.records.services.readings import readings_of
from inspections.records.services.signable import moment, need_decisions, need_signable
from inspections.records.shape.delivery import InspectionDocument
from inspections.records.shape.door import Sent
from inspections.trade.facts import DeliveryFacts


@dataclass(frozen=True)
class Prepared:
    """A delivery that may be signed, with all its rows, none of them written."""

    delivery: Delivery
    lines: list[DocketLine]
    cartons: list[Carton]
    readings: list[Reading]
    findings: list[Finding]
    versions: dict[str, SpecificationVersion]


def prepare_delivery(
    *, sent: Sent[InspectionDocument], site: Site, person: Person, signed_at: datetime | None = None,
    brought_by: Person | None = None,
) -> Prepared:
    """Judge a final document and make the rows of its record; nothing is written.

    Parameters
    ----------
    sent : Sent of InspectionDocument
        As ``shape.door.read_delivery`` gives it, decided and signed.
    site : Site
        The document's, which the person may see (the caller has asked).
    person : Person
        Who sends it.
    signed_at : datetime, optional
        Now, unless the demo says otherwise.
    brought_by : Person, optional
        Who brought it in from the phone's file in place of the phone.

    Raises
    ------
    Unprocessable
        What cannot be signed, in a sentence (see ``signable``), unknown versions (see ``judging``), IDS-TWICE.
    Conflict
        IDS-TAKEN: an id is another delivery's.

    Notes
    -----
    Needs no transaction: what it reads is never altered (limits and versions of specifications are written once), or
    the database refuses the rows (an id that is taken meanwhile). The verdict is the server's own; where the phone's
    differs, the difference is kept and shown.
    """
    need_signable(sent.entered, site)
    need_own_ids(sent.body)
    found = judged(sent.body)
    need_decisions(sent.entered, found.judgement)
    delivery = _delivery(sent, found, site, person, signed_at or timezone.now(), brought_by)
    return Prepared(delivery, *rows_of(delivery, found.facts, found.versions), found.versions)


def write_delivery(prepared: Prepared) -> Delivery:
    """Write the record: the delivery with lines, cartons, readings and findings, the words it is found by, the uses
    of its photos and their jobs. Inside the caller's transaction; in bulk, since others wait while it lasts.

    Raises
    ------
    IntegrityError
        An id was taken since it was prepared.
    """
    delivery = prepared.delivery
    delivery.save(force_insert=True)
    for model, rows in ((DocketLine, prepared.lines), (Carton, prepared.cartons), (Reading, prepared.readings),
                        (Finding, prepared.findings)):
        model.objects.bulk_create(rows)
    write_search_words(delivery, prepared.lines)
    if not are_in_place(delivery.document):
        need_own_ids(delivery.document, "photos")
        use_photos(document=delivery.document)
    return delivery


def _delivery(
    sent: Sent, found: Judged, site: Site, person: Person, signed_at: datetime, brought_by: Person | None
) -> Delivery:
    entered = sent.entered
    delivery = Delivery(
        id=entered.id, site=site, supplier_id=entered.supplier_id, order_id=entered.order_id,
        docket_number=entered.docket_number.strip(), arrived_at=moment(entered.arrived_at),
        receiver=person, device_id=entered.device_id, limit_set=found.limits, document=sent.body,
        judgement=found.judgement, difference=difference(sent.body, found.judgement), signed_at=signed_at,
        receiver_signed_at=receiver_signed_at(sent.body),
        noticed=noticed_at_signing(
            entered, person=person, site=site, signed_at=signed_at, brought_by=brought_by),
        separate_from=entered.separate_from, is_demo=site.is_demo,
        **listed_by(sent.body, found.judgement),
    )
    # What the foreign keys name was read a moment ago.
    delivery.clean_fields(exclude={"site", "supplier", "order", "receiver", "limit_set"})
    return delivery


def listed_by(document: dict, judgement: dict) -> dict[str, bool]:
    """What the desk's list is narrowed by: whether cartons were refused or held, and whether one was defective."""
    return {
        "has_refused": any(
            (line["decision"].get(part) or 0) > 0 for line in document["lines"] for part in ("refused", "held")),
        "has_defective": any(carton["defective"] for line in judgement["lines"] for carton in line["cartons"]),
    }


def receiver_signed_at(document: dict) -> datetime | None:
    """When the receiver signed, by the phone's clock; None where the signature tells no moment that can be kept."""
    return utc_moment(((document.get("signatures") or {}).get("receiver") or {}).get("at"))


def rows_of(
    delivery: Delivery, facts: DeliveryFacts, versions: dict[str, SpecificationVersion]
) -> tuple[list[DocketLine], list[Carton], list[Reading], list[Finding]]:
    """Unsaved rows for everything that a delivery's document and judgement tell.

    They are made from the document as it stands, since those sealed by earlier releases are checked by it too.
    """
    pairs = list(zip(delivery.document["lines"], delivery.judgement["lines"], strict=True))
    lines = [
        _line(delivery, number, body, judgement, versions[body["specification_id"]])
        for number, (body, judgement) in enumerate(pairs, start=1)
    ]
    cartons = [carton for line, (body, judgement) in zip(lines, pairs, strict=True)
               for carton in _cartons(line, body, judgement)]
    return lines, cartons, readings_of(delivery, facts), _findings(delivery)


def _line(delivery: Delivery, number: int, body: dict, judgement: dict, version: SpecificationVersion) -> DocketLine:
    decision = body["decision"]
    departs = decision["kind"] != judgement["suggestion"]
    return DocketLine(
        id=body["id"], delivery=delivery, number=number, specification_version=version,
        cartons_on_docket=body.get("cartons_on_docket") or 0, cartons_counted=body["cartons_counted"],
        lot=_lot(body), suggested=judgement["suggestion"], decided=decision["kind"],
        departed_because=decision["reason"].strip() if departs else "",
        accepted=decision.get("accepted") or 0, refused=decision.get("refused") or 0, held=decision.get("held") or 0,
    )


def _lot(body: dict) -> str:
    """The line's lot, else the one that all its read labels agree on."""
    if body.get("lot"):
        return body["lot"].strip()
    seen = {(carton.get("label") or {}).get("lot") or "" for carton in body.get("cartons") or []} - {""}
    return seen.pop() if len(seen) == 1 else ""


def _cartons(line: DocketLine, body: dict, judgement: dict) -> list[Carton]:
    by_id = {carton["carton_id"]: carton for carton in judgement["cartons"]}
    return [
        Carton(
            id=carton["id"], line=line, position=carton.get("position"), data=carton,
            is_defective=by_id[carton["id"]]["defective"],
            black_spot=found_in(carton, by_id[carton["id"]]["checks"]),
            derived={**by_id[carton["id"]]["derived"], "checks": by_id[carton["id"]]["checks"]},
        )
        for carton in body.get("cartons") or []
    ]


def _findings(delivery: Delivery) -> list[Finding]:
    found = [_finding(delivery, reason) for reason in delivery.judgement["vehicle"]["reasons"]]
    for line in delivery.judgement["lines"]:
        of_cartons = [
            (carton["carton_id"], reason) for carton in line["cartons"] for reason in carton["reasons"]
        ]
        # A line's reasons repeat those of its cartons, with the carton's position.
        of_line = [(None, reason) for reason in line["reasons"] if reason.get("carton") is None]
        found += [
            _finding(delivery, reason, line_id=line["line_id"], carton_id=carton_id)
            for carton_id, reason in [*of_line, *of_cartons]
        ]
    return found


def _finding(delivery: Delivery, reason: dict, **where) -> Finding:
    return Finding(
        delivery=delivery, kind=reason["code"], severity=reason["severity"], measured=reason.get("measured"),
        unit=reason.get("unit") or "", limit_code=reason.get("limit") or "", bound=reason.get("bound"),
        basis=reason.get("basis"), text=reason["text"], **where,
    )
