"""Sign in and out, by password or by PIN on a shared device; devices; the trail."""
from django.contrib.auth import authenticate, login, logout
from django.core.paginator import Paginator
from django.middleware.csrf import get_token
from rest_framework.authentication import SessionAuthentication
from rest_framework.permissions import AllowAny
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.describe import describe
from inspections.errors import ApiProblem, Forbidden
from inspections.people import answers, devices, trail
from inspections.people.access import need_role, need_site, sites_for
from inspections.people.known import remember
from inspections.people.models import Device, Person, Role, Site
from inspections.people.pins import people_on, set_pin
from inspections.people.sessions import SUPPLIER_PAGES
from inspections.strict import read, read_query

PAGE = 100


def site_json(site: Site) -> dict:
    """A site as the clients know it."""
    return {
        "id": str(site.pk), "name": site.name, "code": site.code, "timezone": site.timezone,
        "currency": site.currency, "market": site.market,
    }


def person_json(person: Person) -> dict:
    """ME: the person who is signed in, with the sites they see."""
    return {
        "id": person.pk, "name": str(person), "role": person.role,
        "sites": [site_json(site) for site in sites_for(person)],
    }


class OpenView(APIView):
    """Asked before anybody is signed in; the page's token is needed all the same, which DRF asks of nobody then."""

    permission_classes = [AllowAny]

    def initial(self, request: Request, *args, **kwargs):
        super().initial(request, *args, **kwargs)
        SessionAuthentication().enforce_csrf(request)


class SessionView(OpenView):
    """The session of this browser or phone."""

    @describe(answers.SessionAnswer, is_open=True)
    def get(self, request: Request) -> Response:
        get_token(request._request)
        person = request.user if request.user.is_authenticated else None
        device = Device.objects.select_related("revoked_by").filter(pk=request.session.get("device")).first()
        refused = devices.refusal_of(device if person else devices.shared_device(request._request).device)
        told = {"person": person_json(person) if person else None}
        return Response({**told, "revoked": str(refused)} if refused else told)

    @describe(answers.Me, body=answers.SignIn, is_open=True)
    def post(self, request: Request) -> Response:
        given = read(answers.SignIn, request.data)
        person = authenticate(request._request, username=given.username.strip(), password=given.password)
        if person is None:
            raise ApiProblem("SIGN-IN-WRONG", status=401)
        if person.role == Role.SUPPLIER:
            raise Forbidden("SUPPLIER-SIGN-IN", address=request.build_absolute_uri(SUPPLIER_PAGES))
        shared = devices.shared_device(request._request).device
        return welcome(request, person, shared.pk if shared else given.device_id or None, given.device_label)

    @describe(None, 204, is_open=True)
    def delete(self, request: Request) -> Response:
        if request.user.is_authenticated:
            trail.note(request, "signed_out", request.user)
        logout(request._request)
        return Response(status=204)


class SharedDeviceView(OpenView):
    """The shared device that this browser is: who may take it into their hands; enrolling it by a code."""

    @describe(answers.SharedDevice, is_open=True)
    def get(self, request: Request) -> Response:
        get_token(request._request)
        return Response(_shared_json(devices.shared_device(request._request)))

    @describe(answers.SharedDevice, 201, body=answers.DeviceEnrolment, is_open=True)
    def post(self, request: Request) -> Response:
        device, key = devices.enrol(**read(answers.DeviceEnrolment, request.data).given())
        trail.note(request, "device_enrolled", device, site=device.site, person=device.enrolled_by)
        answer = Response(_shared_json(devices.Shared(device)), status=201)
        devices.remember_device(answer, device, key)
        return answer


class PinSessionView(OpenView):
    """Signing in on a shared device by choosing one's name and typing one's PIN."""

    @describe(answers.Me, body=answers.PinSignIn, is_open=True)
    def post(self, request: Request) -> Response:
        given = read(answers.PinSignIn, request.data)
        shared = devices.shared_device(request._request)
        if shared.device is None:
            raise Forbidden("DEVICE-NOT-SHARED")
        if refused := devices.refusal_of(shared.device):
            raise refused
        username = Person.objects.filter(pk=given.person_id).values_list("username", flat=True).first()
        person = authenticate(
            request._request, username=username or "", pin_secret=given.pin, device=shared.device
        )
        if person is None:
            raise ApiProblem("PIN-WRONG", status=401)
        return welcome(request, person, shared.device.pk, "")


class PinView(APIView):
    """One's own PIN; setting it takes the password."""

    @describe(None, 204, body=answers.OwnPin)
    def put(self, request: Request) -> Response:
        given = read(answers.OwnPin, request.data)
        person = authenticate(request._request, username=request.user.username, password=given.password)
        if person is None:
            raise ApiProblem("SIGN-IN-WRONG", status=422)
        set_pin(person=person, pin=given.pin)
        trail.note(request, "pin_set", person)
        return Response(status=204)


class DevicesView(APIView):
    """The devices of the sites that one looks after; a code to share one more."""

    @describe(answers.DevicesAnswer)
    def get(self, request: Request) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        return Response({"rows": [devices.device_json(row) for row in devices.devices_for(request.user)[:500]]})

    @describe(answers.DeviceCode, 201, body=answers.NewDevice)
    def post(self, request: Request) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        given = read(answers.NewDevice, request.data)
        code, ends = devices.make_code(person=request.user, site_id=given.site, label=given.label)
        trail.note(request, "device_code_made", given.label, site=need_site(request.user, given.site))
        told = {"code": code, "expires_at": ends.isoformat()}
        return Response(told, status=201, headers={"Cache-Control": "no-store"})


class DeviceView(APIView):
    """One device: out of use, or in use again."""

    @describe(answers.DeviceRow, body=answers.DeviceUse)
    def put(self, request: Request, device_id) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        is_revoked = read(answers.DeviceUse, request.data).is_revoked
        device = devices.switch_device(person=request.user, device_id=device_id, is_revoked=is_revoked)
        trail.note(request, "device_revoked" if is_revoked else "device_restored", device, site=device.site)
        return Response(devices.device_json(device))


class TrailView(APIView):
    """Who saw and did what, newest first, a page at a time."""

    @describe(answers.TrailPage, query=answers.TrailQuery)
    def get(self, request: Request) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        asked = read_query(answers.TrailQuery, request.query_params)
        rows = trail.deeds_for(request.user, sites_for(request.user))
        if asked.site:
            rows = rows.filter(site=need_site(request.user, asked.site))
        if asked.q:
            rows = rows.filter(about__icontains=asked.q) | rows.filter(person__name__icontains=asked.q)
        pages = Paginator(rows, PAGE)
        page = pages.get_page(asked.page)
        return Response({"rows": [trail.deed_json(row) for row in page], "page": page.number, "pages": pages.num_pages})


def welcome(request: Request, person: Person, device_id, label: str) -> Response:
    """Begin the session, unless the device is out of use."""
    if device_id is not None:
        known = Device.objects.select_related("revoked_by").filter(pk=device_id).first()
        if refused := devices.refusal_of(known):
            raise refused
    device = devices.note_use(person=person, device_id=device_id, label=label)
    login(request._request, person)
    if device is not None:
        request.session["device"] = str(device.pk)
    if request.session.get("by_pin"):
        person.role = Role.RECEIVER
    answer = Response(person_json(person))
    remember(request._request, answer, person.username)
    return answer


def _shared_json(shared: devices.Shared) -> dict:
    device = shared.device
    if device is None:
        return {"device": None, "people": []}
    people = people_on(device).order_by("name") if shared.is_usable else []
    refused = devices.refusal_of(device)
    return {
        "device": {"id": str(device.pk), "label": device.label, "site": device.site.name,
                   "revoked": str(refused) if refused else None},
        "people": [{"id": person.pk, "name": person.name} for person in people],
    }
