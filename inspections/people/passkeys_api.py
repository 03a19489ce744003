"""Passkeys: one's own, kept at the desk; signing in by one."""
from django.contrib.auth import authenticate
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.describe import describe
from inspections.errors import ApiProblem
from inspections.people import answers, passkeys, trail
from inspections.people.access import signed_in
from inspections.people.api import OpenView, welcome
from inspections.people.devices import shared_device
from inspections.people.models import Passkey
from inspections.strict import read


class PasskeysView(APIView):
    """One's own passkeys."""

    @describe(answers.Passkeys)
    def get(self, request: Request) -> Response:
        own = Passkey.objects.filter(person=signed_in(request.user))
        return Response({"rows": [passkeys.passkey_json(key) for key in own]})

    @describe(answers.PasskeyRow, 201, body=answers.NewPasskey)
    def post(self, request: Request) -> Response:
        given = read(answers.NewPasskey, request.data)
        key = passkeys.add(request._request, signed_in(request.user), credential=given.credential, label=given.label)
        trail.note(request, "passkey_added", key)
        return Response(passkeys.passkey_json(key), status=201)


class NewPasskeyView(APIView):
    """Leave to add one; it takes the password."""

    @describe(answers.PasskeyOptions, body=answers.OwnPassword)
    def post(self, request: Request) -> Response:
        given = read(answers.OwnPassword, request.data)
        if authenticate(request._request, username=request.user.username, password=given.password) is None:
            raise ApiProblem("SIGN-IN-WRONG", status=422)
        return Response({"publicKey": passkeys.options_to_add(request._request, signed_in(request.user))})


class PasskeyView(APIView):
    """One of them."""

    @describe(None, 204)
    def delete(self, request: Request, passkey_id: int) -> Response:
        trail.note(request, "passkey_removed", passkeys.remove(signed_in(request.user), passkey_id))
        return Response(status=204)


class PasskeyOptionsView(OpenView):
    """What a browser signs to open a session."""

    @describe(answers.PasskeyOptions, is_open=True)
    def post(self, request: Request) -> Response:
        return Response({"publicKey": passkeys.options_to_sign_in(request._request)})


class PasskeySessionView(OpenView):
    """Signing in by a passkey."""

    @describe(answers.Me, body=answers.PasskeySignIn, is_open=True)
    def post(self, request: Request) -> Response:
        given = read(answers.PasskeySignIn, request.data)
        person = passkeys.check(request._request, given.credential)
        shared = shared_device(request._request).device
        return welcome(request, person, shared.pk if shared else given.device_id or None, given.device_label)
