"""How long somebody stays signed in: so long after the last use, and at most so long after signing in.

A phone at a dock may be without a signal for days and must not ask for a password between two deliveries.
Whoever may change what holds for the whole group is asked sooner. What is on a phone whose session has ended
stays there; after a new sign-in it is sent.
"""
import time
from collections.abc import Callable

from django.contrib.auth import logout
from django.contrib.auth.models import AnonymousUser
from django.http import HttpRequest, HttpResponse, JsonResponse

from inspections.errors import ApiProblem
from inspections.people import trail
from inspections.people.devices import refusal_of
from inspections.people.models import SEES_ALL, Device, Role

DAY_S = 24 * 3600
#: role -> days after the last use, days after signing in
LASTS_DAYS = {role: (14, 90) if role in SEES_ALL | {Role.SUPPLIER} else (60, 365) for role in Role.values}


#: What the trail says of a sign-in otherwise than by password.
WAYS = {"PinBackend": "signed_in_by_pin", "PasskeyBackend": "signed_in_by_passkey"}
#: By PIN, on a device that passes through many hands: one shift.
PIN_LASTS_S = 14 * 3600
#: What a device that is out of use is refused: all that reads or writes records. The app itself still opens on it,
#: or nobody could see what it holds; so does the answer to why nothing of it is taken.
REFUSED, STILL_ANSWERED = ("/api/", "/sync/", "/admin/"), ("/api/session", "/api/device")
#: The pages of suppliers' people; everywhere else they are nobody.
SUPPLIER_PAGES = "/supplier"


def begin(sender, request: HttpRequest, user, **more) -> None:
    """Called at every sign-in: the session's clock starts."""
    request.session["signed_in_at"] = request.session["used_at"] = int(time.time())
    request.session.set_expiry(LASTS_DAYS[user.role][0] * DAY_S)
    way = getattr(user, "backend", "").rpartition(".")[2]
    is_by_pin = way == "PinBackend"
    # Set either way: the same person's session may go from one to the other.
    request.session["by_pin"] = is_by_pin
    if is_by_pin:
        request.session.set_expiry(PIN_LASTS_S)
    elif user.wrong_pins:
        user.wrong_pins = 0
        user.save(update_fields=["wrong_pins"])
    trail.note(request, WAYS.get(way, "signed_in"), user, person=user)


class KeptSessions:
    """Moves a session's end with its use, and ends it when it is too old.

    Written at most once a day: a write to the database at every request would cost more than it tells.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if request.session.session_key and request.user.is_authenticated:
            self._keep(request)
            refused = self._refused(request)
            if refused:
                return JsonResponse(refused.to_json(), status=refused.status)
            is_suppliers = getattr(request.user, "role", None) == Role.SUPPLIER
            if is_suppliers and not f"{request.path}/".startswith(f"{SUPPLIER_PAGES}/"):
                request.user = AnonymousUser()
        return self.get_response(request)

    def _refused(self, request: HttpRequest) -> ApiProblem | None:
        device_id = request.session.get("device")
        if device_id is None or request.path in STILL_ANSWERED or not request.path.startswith(REFUSED):
            return None
        # kept for the view, which would ask for it again
        request.device = Device.objects.filter(pk=device_id).first()
        return refusal_of(request.device)

    def _keep(self, request: HttpRequest) -> None:
        now = time.time()
        # A session of before this clock was kept begins now.
        signed_in_at = request.session.setdefault("signed_in_at", int(now))
        idle_days, most_days = LASTS_DAYS[request.user.role]
        if now - signed_in_at > most_days * DAY_S:
            logout(request)
        elif request.session.get("by_pin"):
            # Whoever knows four digits receives; what a manager decides takes the password.
            request.user.role = Role.RECEIVER
            if now - signed_in_at > PIN_LASTS_S:
                logout(request)
        elif now - request.session.get("used_at", 0) > DAY_S:
            request.session["used_at"] = int(now)
            request.session.set_expiry(idle_days * DAY_S)
