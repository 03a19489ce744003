"""A delivery is signed: the document becomes a record that is only ever added to."""
from datetime import UTC, datetime
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from inspections.errors import Conflict, add_sentences
from inspections.people.models import Person, Site
from inspections.records.acts.photo import use_photos
from inspections.records.acts.readings import readings_of
from inspections.records.acts.signable import moment, need_decisions, need_signable
from inspections.records.black_spot import found_in
from inspections.records.judging import difference, judge, limit_set_of, versions_of
from inspections.records.models import Carton, Delivery, DocketLine, Finding, Reading

add_sentences({
    "ALREADY-SIGNED": "This delivery is signed already, with other entries. The signed record is safe. "
    "Add a correction to it instead.",
})


def sign_delivery(
    *, document: dict, person: Person, device_id: UUID | str, signed_at: datetime | None = None
) -> Delivery:
    """Make the record of a delivery from its final document.

    Parameters
    ----------
    document : dict
        Inspection document, schema 1, decided and signed.
    person : Person
        Who sends it; must see the site.
    device_id : UUID or str
        The phone.
    signed_at : datetime, optional
        Now, unless the demo says otherwise.

    Raises
    ------
    CannotUse
        What cannot be signed, in a sentence (see ``signable``), and unknown versions (see ``judging``).
    NotYours
        The site is not the person's.
    Conflict
        ALREADY-SIGNED: another document was signed under this id.

    Notes
    -----
    One transaction: the delivery with lines, cartons, readings and findings, the uses of its photos and
    their jobs. The verdict is the server's own; where the phone's differs, the difference is kept and shown.
    The same document again answers with the same delivery and writes nothing.
    """
    site = need_signable(document, person)
    with transaction.atomic():
        known = Delivery.objects.filter(pk=document["id"]).first()
        if known is not None:
            return _same(known, document)
        judgement = judge(document)
        need_decisions(document, judgement)
        delivery = _write_delivery(document, judgement, site, person, device_id, signed_at or timezone.now())
        _write_lines(delivery)
        use_photos(document=document)
    return delivery


def _same(known: Delivery, document: dict) -> Delivery:
    if known.document != document:
        raise Conflict("ALREADY-SIGNED")
    return known


def _write_delivery(document, judgement, site: Site, person: Person, device_id, signed_at: datetime) -> Delivery:
    delivery = Delivery(
        id=document["id"], site=site, supplier_id=document["supplier_id"], order_id=document.get("order_id"),
        docket_number=str(document["docket_number"]).strip(), arrived_at=moment(document["arrived_at"]),
        receiver=person, device_id=device_id, limit_set=limit_set_of(document), document=document,
        judgement=judgement, difference=difference(document, judgement), signed_at=signed_at,
        receiver_signed_at=receiver_signed_at(document),
        separate_from=document.get("separate_from") or None, is_demo=site.is_demo,
    )
    delivery.full_clean(validate_unique=False, validate_constraints=False)
    delivery.save(force_insert=True)
    return delivery


def receiver_signed_at(document: dict) -> datetime | None:
    """When the receiver signed, by the phone's clock; None where the signature tells no moment that can be kept."""
    told = moment(((document.get("signatures") or {}).get("receiver") or {}).get("at"))
    return told and told.astimezone(UTC)


def _write_lines(delivery: Delivery) -> None:
    """Rows below the delivery, in bulk: a signing at the dock must not wait for hundreds of inserts."""
    document, judgement = delivery.document, delivery.judgement
    versions = versions_of(document)
    pairs = list(zip(document["lines"], judgement["lines"], strict=True))
    lines = [
        _line(delivery, number, line, judged, versions) for number, (line, judged) in enumerate(pairs, start=1)
    ]
    cartons = [carton for line, (entry, judged) in zip(lines, pairs, strict=True)
               for carton in _cartons(line, entry, judged)]
    DocketLine.objects.bulk_create(lines)
    Carton.objects.bulk_create(cartons)
    Reading.objects.bulk_create(readings_of(delivery))
    Finding.objects.bulk_create(_findings(delivery))


def _line(delivery: Delivery, number: int, line: dict, judged: dict, versions: dict) -> DocketLine:
    decision = line["decision"]
    departs = decision["kind"] != judged["suggestion"]
    return DocketLine(
        id=line["id"], delivery=delivery, number=number, specification_version=versions[line["specification_id"]],
        cartons_on_docket=line.get("cartons_on_docket") or 0, cartons_counted=line["cartons_counted"],
        lot=_lot(line), suggested=judged["suggestion"], decided=decision["kind"],
        departed_because=decision["reason"].strip() if departs else "",
        accepted=decision.get("accepted") or 0, refused=decision.get("refused") or 0, held=decision.get("held") or 0,
    )


def _lot(line: dict) -> str:
    """The line's lot, else the one that all its read labels agree on."""
    if line.get("lot"):
        return str(line["lot"]).strip()
    seen = {(carton.get("label") or {}).get("lot") or "" for carton in line.get("cartons") or []} - {""}
    return seen.pop() if len(seen) == 1 else ""


def _cartons(line: DocketLine, entry: dict, judged: dict) -> list[Carton]:
    by_id = {carton["carton_id"]: carton for carton in judged["cartons"]}
    return [
        Carton(
            id=carton["id"], line=line, position=carton.get("position"), data=carton,
            is_defective=by_id[carton["id"]]["defective"],
            black_spot=found_in(carton, by_id[carton["id"]]["checks"]),
            derived={**by_id[carton["id"]]["derived"], "checks": by_id[carton["id"]]["checks"]},
        )
        for carton in entry.get("cartons") or []
    ]


def _findings(delivery: Delivery) -> list[Finding]:
    found = [_finding(delivery, reason) for reason in delivery.judgement["vehicle"]["reasons"]]
    for judged in delivery.judgement["lines"]:
        of_cartons = [
            (carton["carton_id"], reason) for carton in judged["cartons"] for reason in carton["reasons"]
        ]
        # A line's reasons repeat those of its cartons, with the carton's position.
        of_line = [(None, reason) for reason in judged["reasons"] if reason.get("carton") is None]
        found += [
            _finding(delivery, reason, line_id=judged["line_id"], carton_id=carton_id)
            for carton_id, reason in [*of_line, *of_cartons]
        ]
    return found


def _finding(delivery: Delivery, reason: dict, **where) -> Finding:
    return Finding(
        delivery=delivery, kind=reason["code"], severity=reason["severity"], measured=reason.get("measured"),
        unit=reason.get("unit") or "", limit_code=reason.get("limit") or "", bound=reason.get("bound"),
        basis=reason.get("basis"), text=reason["text"], **where,
    )
