"""Asking for notifications in a browser, and asking no more."""
from typing import Any
from uuid import UUID

from django.http import HttpRequest
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.claims import answers, push
from inspections.claims.models import PushSubscription
from inspections.describe import describe
from inspections.errors import NotFound
from inspections.people.access import need_role, signed_in
from inspections.people.models import Role
from inspections.strict import read

MANAGERS = (Role.SITE_MANAGER, Role.GROUP_OPERATIONS)


class Notifications(APIView):
    """One's own browsers that get notifications of claims, and the key that another is bound to."""

    @describe(answers.NotificationsAnswer)
    def get(self, request: Request) -> Response:
        need_role(request.user, *MANAGERS)
        rows = PushSubscription.objects.filter(person=signed_in(request.user), revoked_at=None).select_related("device")
        return Response({"public_key": push.public_key(), "rows": [_row(one) for one in rows]})

    @describe(answers.NotificationRow, 201, body=answers.SubscriptionSent)
    def post(self, request: Request) -> Response:
        asked = read(answers.SubscriptionSent, request.data).given()
        row = push.subscribe(person=signed_in(request.user), device_id=request.session.get("device"), **asked)
        return Response(_row(row), status=201)


class OneNotification(APIView):
    """``DELETE`` ends the notifications of one of one's own browsers."""

    @describe(None, 204)
    def delete(self, request: Request, subscription_id: UUID) -> Response:
        need_role(request.user, *MANAGERS)
        own = PushSubscription.objects.filter(pk=subscription_id, person=signed_in(request.user))
        if not own.exists():
            raise NotFound()
        push.revoke(own)
        return Response(status=204)


def forget_browser(sender: Any, request: HttpRequest, user: Any, **more: Any) -> None:
    """Called at every signing out: who is no longer signed in on a device is told nothing more on it."""
    device = request.session.get("device")
    if user is not None and device:
        push.revoke(PushSubscription.objects.filter(person=user, device=device))


def _row(row: PushSubscription) -> dict[str, Any]:
    return {"id": str(row.pk), "endpoint_sha256": row.endpoint_sha256,
            "label": row.device.label if row.device else "", "created_at": row.created_at.isoformat()}
