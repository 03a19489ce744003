"""What is odd about a signing and is no reason to refuse it: moments that cannot be, another name, another's hand.

A phone's clock may be wrong and a phone may be handed on. By the time that the server sees the record the
driver is gone and the goods are in the freezer, so the record is taken as it was signed; what does not go
together is kept with it, sealed with it, and shown wherever it is shown.
"""
import unicodedata
from collections.abc import Iterator
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from inspections.people.models import Person, Site
from inspections.records.services.signable import moment
from inspections.records.shape.delivery import InspectionDocument

#: Clocks that nobody sets by hand are seconds apart; a record may wait for days where there is no signal.
APART, WAITED = timedelta(minutes=10), timedelta(days=7)


def noticed_at_signing(
    entered: InspectionDocument, *, person: Person, site: Site, signed_at: datetime, brought_by: Person | None = None
) -> list[dict]:
    """What does not go together, in the order of the walk.

    Parameters
    ----------
    entered : InspectionDocument
        Signable.
    person : Person
        Who is signed in.
    site : Site
        Its clock is the one that the sentences tell.
    signed_at : datetime
        Now, by the server's clock.
    brought_by : Person, optional
        Who brought the record in from the phone's file; the seal must not say that the phone itself sent it.

    Returns
    -------
    list of dict
        ``{"code", "text"}``: ARRIVED-AHEAD, ARRIVED-LONG-AGO, SIGNED-AHEAD, SIGNED-BEFORE-ARRIVAL, OTHER-NAME,
        BROUGHT-BY-FILE.
        The tolerances (10 minutes, 7 days) are common practice, no source.
    """
    found = list(_noticed(entered, person, ZoneInfo(site.timezone), signed_at))
    if brought_by is not None:
        found.append(("BROUGHT-BY-FILE", (
            f"The phone did not send this record: {brought_by.name or brought_by.username} brought it in from the "
            "phone’s file."
        )))
    return [{"code": code, "text": text} for code, text in found]


def _noticed(
    entered: InspectionDocument, person: Person, zone: ZoneInfo, now: datetime
) -> Iterator[tuple[str, str]]:
    def told(at: datetime) -> str:
        try:
            there = at.astimezone(zone)
        except OverflowError:
            return at.isoformat()
        return f"{there.day} {there:%B %Y, %H:%M}"

    arrived, signed = moment(entered.arrived_at), moment(entered.signatures.receiver.at)
    reached = f"the record reached the server on {told(now)}"
    if arrived - now > APART:
        yield "ARRIVED-AHEAD", (
            f"The arrival is noted for {told(arrived)}, but {reached}. One of the two clocks was wrong."
        )
    if now - arrived > WAITED:
        yield "ARRIVED-LONG-AGO", (
            f"The arrival is noted for {told(arrived)}; {reached}, {(now - arrived).days} days later."
        )
    if signed is not None and signed - now > APART:
        yield "SIGNED-AHEAD", f"The receiver’s signature is dated {told(signed)}, but {reached}."
    if signed is not None and arrived - signed > APART:
        yield "SIGNED-BEFORE-ARRIVAL", (
            f"The receiver’s signature is dated {told(signed)}, before the goods came on {told(arrived)}."
        )
    printed, signed_in = entered.signatures.receiver.name.strip(), person.name or person.username
    if _folded(printed) != _folded(signed_in):
        yield "OTHER-NAME", f"The receiver’s name is given as “{printed}”. The person signed in was “{signed_in}”."


def _folded(name: str) -> str:
    """A name without case and with single blanks."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())
