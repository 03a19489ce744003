"""Notifications in the browsers of those who answer for a site: standard Web Push, nothing of any one vendor's.

A person asks for them in one browser, which gives an address of its push service and a key. What is sent there is
encrypted for that browser alone (``http_ece``), and signed by this installation's own key (VAPID, ``py_vapid``), which
is made on first use and kept beside the sealing key. An address that the service says is gone (404, 410) is not used
again.

Does not hold against a name that points somewhere else between the look-up and the sending: the look-up keeps a browser
from making the server ask its own network.

Sources: RFC 8030 (push), RFC 8291 (encryption), RFC 8292 (VAPID), W3C Push API.
"""
import base64
import contextlib
import hashlib
import ipaddress
import json
import os
import socket
from datetime import timedelta
from pathlib import Path
from typing import Any
from urllib.error import HTTPError, URLError
from urllib.parse import urlsplit
from urllib.request import HTTPRedirectHandler, Request, build_opener

import http_ece
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from django.conf import settings
from django.db.models import Q, QuerySet
from django.utils import timezone
from py_vapid import Vapid02

from inspections.claims.delivering import Gone, NotTaken
from inspections.claims.models import PushSubscription
from inspections.errors import Unprocessable
from inspections.people.access import need_role
from inspections.people.models import SEES_ALL, Device, Person, Role, Site

KEY_FILE = "push-p256.pem"
WAIT_S, LIVES, MOST_ADDRESS = 15, timedelta(days=1), 2000
#: Bytes of a browser's key (an uncompressed point of P-256) and of its secret, RFC 8291, 2.
KEY_BYTES, AUTH_BYTES = 65, 16


def public_key() -> str:
    """The key that a browser binds its subscription to (``applicationServerKey``), base64url."""
    return _written(_vapid().public_key.public_bytes(Encoding.X962, PublicFormat.UncompressedPoint))


def subscribe(*, person: Person, device_id: Any, endpoint: str, p256dh: str, auth: str) -> PushSubscription:
    """Keep a browser's subscription; the same again, also by somebody else, is the same browser's.

    Raises
    ------
    Forbidden
        Whoever has nothing to do with claims.
    Unprocessable
        PUSH-ADDRESS, PUSH-KEY.
    """
    need_role(person, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
    if len(endpoint) > MOST_ADDRESS or not _is_address(endpoint):
        raise Unprocessable("PUSH-ADDRESS")
    try:
        ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), _read(p256dh))
        if (len(_read(p256dh)), len(_read(auth))) != (KEY_BYTES, AUTH_BYTES):
            raise ValueError
    except ValueError as trouble:
        raise Unprocessable("PUSH-KEY") from trouble
    row, _ = PushSubscription.objects.update_or_create(
        endpoint_sha256=hashlib.sha256(endpoint.encode()).hexdigest(),
        defaults={"endpoint": endpoint, "p256dh": p256dh, "auth": auth, "person": person, "revoked_at": None,
                  "device": Device.objects.filter(pk=device_id).first() if device_id else None})
    return row


def subscriptions_at(site: Site) -> QuerySet[PushSubscription]:
    """Browsers of those who answer for a site and have asked; none that was signed out of or taken out of use."""
    role = Q(person__role__in=SEES_ALL) | Q(person__role=Role.SITE_MANAGER, person__sites=site)
    return PushSubscription.objects.filter(
        role, revoked_at=None, person__is_active=True, device__revoked_at=None).select_related("person").distinct()


def revoke(rows: QuerySet[PushSubscription]) -> None:
    """Send no more to these."""
    rows.filter(revoked_at=None).update(revoked_at=timezone.now())


def push(subscription: PushSubscription, told: dict[str, str]) -> None:
    """Hand a notification to the browser's push service.

    Raises
    ------
    NotTaken
        The service was not reached, or refused it for now.
    Gone
        The subscription is no longer there; it is revoked.
    OSError
        Broken off: it may have been taken.
    """
    if subscription.revoked_at or not subscription.person.is_active:
        raise Gone()
    body = http_ece.encrypt(
        json.dumps(told).encode(), private_key=ec.generate_private_key(ec.SECP256R1()),
        dh=_read(subscription.p256dh), auth_secret=_read(subscription.auth), version="aes128gcm")
    request = Request(subscription.endpoint, body, method="POST", headers={  # noqa: S310  only what need_public lets by
        "Content-Encoding": "aes128gcm", "Content-Type": "application/octet-stream", "Urgency": "normal",
        "TTL": str(int(LIVES.total_seconds())), **_signed_for(subscription.endpoint)})
    try:
        need_public(subscription.endpoint)
        with build_opener(_StayingThere()).open(request, timeout=WAIT_S):
            return
    except HTTPError as refused:
        refused.close()
        if refused.code in (404, 410):
            revoke(PushSubscription.objects.filter(pk=subscription.pk))
            raise Gone() from refused
        raise NotTaken() from refused
    except URLError as trouble:
        if isinstance(trouble.reason, ConnectionRefusedError | socket.gaierror):
            raise NotTaken() from trouble
        raise


def need_public(endpoint: str) -> None:
    """Nothing, for an address of the open network; NotTaken for the server's own and those of its neighbours."""
    try:
        found = socket.getaddrinfo(urlsplit(endpoint).hostname, urlsplit(endpoint).port or 443, type=socket.SOCK_STREAM)
    except OSError as trouble:
        raise NotTaken() from trouble
    if not all(ipaddress.ip_address(one[4][0]).is_global for one in found):
        raise NotTaken()


class _StayingThere(HTTPRedirectHandler):
    def redirect_request(self, *told: Any, **more: Any) -> None:
        """A push service answers by itself; whoever sends on elsewhere is none."""


def _is_address(endpoint: str) -> bool:
    try:
        parts = urlsplit(endpoint)
        return endpoint.isascii() and parts.scheme == "https" and bool(parts.hostname) and parts.port is not False
    except ValueError:
        return False


def _signed_for(endpoint: str) -> dict[str, str]:
    parts = urlsplit(endpoint)
    subject = settings.PUBLIC_ADDRESS or f"mailto:{settings.DEFAULT_FROM_EMAIL}"
    # The library takes no host without a dot; RFC 8292 does.
    signer = _vapid(**{"no-strict": True})
    return signer.sign({"aud": f"{parts.scheme}://{parts.netloc}", "sub": subject})


def _vapid(**how: Any) -> Vapid02:
    path = Path(settings.KEY_ROOT) / KEY_FILE
    if not path.exists():
        _make(path)
    key = Vapid02.from_pem(path.read_bytes())
    key.conf = how
    return key


def _make(path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    made = Vapid02()
    made.generate_keys()
    coming = path.with_suffix(f".{os.getpid()}")
    coming.write_bytes(made.private_pem())
    coming.chmod(0o600)
    # Of two processes that begin at once the first one's stays.
    with contextlib.suppress(FileExistsError):
        os.link(coming, path)
    coming.unlink()


def _read(text: str) -> bytes:
    if not text.isascii():
        raise ValueError(text)
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def _written(content: bytes) -> str:
    return base64.urlsafe_b64encode(content).rstrip(b"=").decode()
