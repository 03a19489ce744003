"""The trail: who saw or did what, when, from where. Rows are only ever added.

What a phone sends of a delivery is not noted here a second time: each revision of a document, signature and
addendum is kept with its person, device and time where it is filed.
"""
from datetime import timedelta

from django.db.models import Q, QuerySet
from django.http import HttpRequest
from django.utils import timezone

from inspections.people.address import client_address
from inspections.people.models import SEES_ALL, Deed, Person, Role, Site

#: code -> what the desk's page says
WORDS = {
    "signed_in": "Signed in", "signed_in_by_pin": "Signed in by PIN", "signed_out": "Signed out",
    "signed_in_by_passkey": "Signed in by passkey",
    "passkey_added": "Added a passkey", "passkey_removed": "Took a passkey away",
    "pin_set": "Set a PIN", "password_set": "Set a password",
    "device_code_made": "Made a code to share a device", "device_enrolled": "Shared a device",
    "device_revoked": "Took a device out of use", "device_restored": "Took a device into use again",
    "person_added": "Added a person", "person_changed": "Changed a person",
    "entry_added": "Added", "entry_changed": "Changed",
    "limits_published": "Published limits", "specification_published": "Published a specification",
    "advice_switched": "Switched photo advice", "table_imported": "Imported a table",
    "phone_file_brought": "Brought in from a phone's file",
    "link_made": "Made a supplier's link", "link_ended": "Ended a supplier's link", "link_opened": "Link opened",
    "delivery_seen": "Looked at a delivery", "photo_taken": "Opened a photo as taken",
    "photo_tried_again": "Let the worker try a photo again",
    "logger_file_added": "Added a logger file", "logger_file_taken": "Took a logger file",
    "claim_drafted": "Drafted a claim", "claim_changed": "Changed a drafted claim", "claim_dropped": "Gave up a draft",
    "claim_said": "Wrote in a claim", "supplier_looked": "Looked at a claim or its evidence by a supplier's account",
    "supplier_invited": "Invited a supplier's person", "supplier_ended": "Ended a supplier's account",
    "key_rotated": "Changed the sealing key",
    "table_taken": "Took a table",
    "bundle_taken": "Took the evidence bundle", "events_taken": "Took a delivery's events",
}
#: Looking at the same thing again so soon is the same look.
SAME_LOOK = timedelta(minutes=10)


def note(
    request: HttpRequest, what: str, about="", *, site: Site | None = None, person: Person | None = None,
    keeps_address: bool = True,
) -> None:
    """Add a row.

    Parameters
    ----------
    what : str
        A code of ``WORDS``.
    about : object
        What it was done to, as a person would name it; its text is kept, the first 200 signs.
    site : Site, optional
        Whose managers read it; without one those of the person's sites do.
    person : Person, optional
        Who, where the request does not tell; nobody signed in is a supplier's link.
    keeps_address : bool
        False for a supplier's look: that it happened is the site's to know, from where is not.
    """
    if what not in WORDS:
        raise ValueError(what)
    user = person or getattr(request, "user", None)
    session = getattr(request, "session", None) or {}
    Deed.objects.create(
        what=what, about=str(about)[:200], person=user if getattr(user, "pk", None) else None, site=site,
        device_id=session.get("device"),
        address=client_address(request) if keeps_address and getattr(user, "role", "") != Role.SUPPLIER else "",
    )


def note_by_operator(what: str, about: str) -> None:
    """Add a row for what was done on the server's own command line, where no request says who."""
    if what not in WORDS:
        raise ValueError(what)
    Deed.objects.create(what=what, about=about[:200])


def note_look(request: HttpRequest, what: str, about, *, site: Site | None) -> None:
    """``note``, unless the same person has looked at the same thing a moment ago."""
    user = getattr(request, "user", None)
    is_known = bool(getattr(user, "pk", None))
    who = {"person": user if is_known else None}
    since = timezone.now() - SAME_LOOK
    if not Deed.objects.filter(what=what, about=str(about)[:200], site=site, at__gte=since, **who).exists():
        note(request, what, about, site=site, keeps_address=is_known)


def deeds_for(person: Person, sites: QuerySet[Site]) -> QuerySet[Deed]:
    """The rows that whoever answers for ``sites`` may read, newest first."""
    rows = Deed.objects.select_related("person", "site", "device")
    if person.role in SEES_ALL:
        return rows
    theirs = Person.objects.filter(sites__in=sites).values("pk")
    return rows.filter(Q(site__in=sites) | Q(site=None, person__in=theirs))


def deed_json(deed: Deed) -> dict:
    """A row as the desk shows it."""
    return {
        "id": deed.pk, "at": deed.at.isoformat(), "words": WORDS.get(deed.what, deed.what), "about": deed.about,
        "person": deed.person.name if deed.person else "", "site": deed.site.name if deed.site else "",
        "device": deed.device.label if deed.device else "", "address": deed.address,
    }
