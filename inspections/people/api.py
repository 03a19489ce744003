"""Sign in, sign out, and who is signed in."""
from django.contrib.auth import authenticate, login, logout
from django.middleware.csrf import get_token
from rest_framework import serializers
from rest_framework.authentication import SessionAuthentication
from rest_framework.permissions import AllowAny
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.errors import Refusal
from inspections.people.access import sites_for
from inspections.people.known import remember
from inspections.people.models import Person, Site


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


class SessionView(APIView):
    """The session of this browser or phone."""

    permission_classes = [AllowAny]

    class Input(serializers.Serializer):
        username = serializers.CharField(max_length=150)
        password = serializers.CharField(max_length=500, trim_whitespace=False)

    def get(self, request: Request) -> Response:
        get_token(request._request)
        return Response({"person": person_json(request.user) if request.user.is_authenticated else None})

    def post(self, request: Request) -> Response:
        # DRF asks nobody who is not signed in for the token; a sign-in forged by another page must fail too.
        SessionAuthentication().enforce_csrf(request)
        given = self.Input(data=request.data)
        given.is_valid(raise_exception=True)
        person = authenticate(request._request, **given.validated_data)
        if person is None:
            raise Refusal("SIGN-IN-WRONG", status=401)
        login(request._request, person)
        answer = Response(person_json(person))
        remember(request._request, answer, person.username)
        return answer

    def delete(self, request: Request) -> Response:
        logout(request._request)
        return Response(status=204)
