"""What waits on a phone that cannot send any more, brought in from its file by a manager.

A document and its signature are taken as of the person who made them, so that repeats come out as if the phone had
sent them: brought in twice, or sent by the phone after all, it counts once. A file can be written by anybody, so each
seal says who really brought it, and so does the trail.
"""
from collections.abc import Callable
from dataclasses import dataclass
from uuid import UUID

from inspections.errors import NotFound, Unprocessable
from inspections.evidence.seals import seal_json
from inspections.people.access import need_site, sites_for
from inspections.people.models import Person, Site
from inspections.records.models import Delivery, Thermometer
from inspections.records.services.ice_point import file_ice_point
from inspections.records.services.ids import as_id
from inspections.records.shape.delivery import InspectionDocument
from inspections.records.shape.door import read_addendum, read_delivery, read_ice_check
from inspections.records.shape.parts import Receiver
from inspections.records.thermometers import check_json
from inspections.sync.document import put_document
from inspections.sync.possession import bring
from inspections.sync.signing import add, sign_once


@dataclass(frozen=True)
class HandedIn:
    """What an entry of the file became: the answer that the phone would have got, where, and what to call it."""

    answer: dict
    site: Site
    about: str


def hand_in(*, manager: Person, entry: dict) -> HandedIn:
    """Do what one entry of a phone's file asks.

    Parameters
    ----------
    manager : Person
        Must see the site; photos that the entry names are those that they have sent.
    entry : dict
        ``kind`` (document, signature, addendum, check) and ``body`` as the phone would send it; ``base`` and
        ``is_replacement`` of a document, ``key`` of a signature.

    Raises
    ------
    Unprocessable
        FILE-ENTRY, and what the phone itself would be told.
    Forbidden, NotFound, Conflict
        As for the phone.
    """
    kind, body = entry.get("kind"), entry.get("body")
    if not isinstance(kind, str) or kind not in KINDS or not isinstance(body, dict):
        raise Unprocessable("FILE-ENTRY", what="its kind")
    return KINDS[kind](manager, body, entry)


def _document(manager: Person, body: dict, entry: dict) -> HandedIn:
    sent = read_delivery(body)
    site, maker = _photos_brought(manager, sent.entered)
    base = entry.get("base")
    if type(base) is not int or base < 0:
        raise Unprocessable("FILE-ENTRY", what="the version that it builds on")
    saved = put_document(person=maker, sent=sent, base=base, is_replacement=entry.get("is_replacement") is True)
    return HandedIn({"revision": saved.revision}, site, f"docket {sent.entered.docket_number}, not signed yet")


def _signature(manager: Person, body: dict, entry: dict) -> HandedIn:
    sent = read_delivery(body)
    site, maker = _photos_brought(manager, sent.entered)
    key = entry.get("key")
    if not isinstance(key, str):
        raise Unprocessable("FILE-ENTRY", what="its key")
    # as the phone would ask for it, so that the phone's own later try gets this answer
    answer = sign_once(sent=sent, person=maker, key=key, brought_by=manager)
    return HandedIn(answer, site, f"docket {sent.entered.docket_number}, signed")


def _addendum(manager: Person, body: dict, _entry: dict) -> HandedIn:
    sent = read_addendum(body)
    delivery = _own(Delivery, sent.entered.delivery_id)
    site = need_site(manager, delivery.site_id)
    sealed = add(delivery=delivery, sent=sent, person=manager)
    what = body["kind"].replace("_", " ")
    return HandedIn({"seal": seal_json(sealed)}, site, f"docket {delivery.docket_number}, {what}")


def _check(manager: Person, body: dict, _entry: dict) -> HandedIn:
    check = read_ice_check(body).entered
    thermometer = _own(Thermometer, check.thermometer_id)
    site = need_site(manager, thermometer.site_id)
    row = file_ice_point(thermometer=thermometer, check=check, person=manager)
    return HandedIn({"check": check_json(row)}, site, f"check of {thermometer.name}")


KINDS: dict[str, Callable[[Person, dict, dict], HandedIn]] = {
    "document": _document, "signature": _signature, "addendum": _addendum, "check": _check,
}


def _photos_brought(manager: Person, entered: InspectionDocument) -> tuple[Site, Person]:
    """The site of a document, which has what the manager sent for it, and the person who made it."""
    site = need_site(manager, entered.site_id)
    bring(manager, site.pk, [photo.sha256 for photo in entered.photos])
    return site, _maker(manager, entered.receiver, site)


def _maker(manager: Person, told: Receiver, site: Site) -> Person:
    """Who made the entry; the manager in place of somebody who is not of the site any more."""
    named = Person.objects.filter(pk=told.person_id).first()
    return named if named is not None and sites_for(named).filter(pk=site.pk).exists() else manager


def _own(model, named: str | UUID):
    found = model.objects.select_related("site").filter(pk=as_id(named)).first()
    if found is None:
        raise NotFound()
    return found
