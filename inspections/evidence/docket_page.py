"""Where the QR code of a docket leads: on to the evidence for whoever may see it, and a word to everybody else.

The phone makes the code at the door, without a signal and before there is a record, so it can open nothing: an address
that anybody may photograph off a docket is no key. The page says the same of every docket, and of none.
"""
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render

from inspections.evidence.pages import unseen
from inspections.people.sessions import SUPPLIER_PAGES


def _docket(request: HttpRequest, delivery_id: UUID) -> HttpResponse:
    """Lead the kitchen's own people on to the desk, which asks for their rights itself."""
    if request.user.is_authenticated:
        return HttpResponseRedirect(f"/desk/deliveries/{delivery_id}")
    return render(request, "evidence/docket.html", {
        "own": f"{SUPPLIER_PAGES}/deliveries/{delivery_id}", "installation": settings.INSTALLATION_NAME})


docket = unseen(_docket)
