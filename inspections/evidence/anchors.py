"""A site's latest seal in the hands of others: whoever holds it can tell later whether the chain was written anew.

It stands at the end of every supplier's link and of every docket's address, and so in their QR codes and in the message
that a link travels with: behind the ``#``, which browsers keep to themselves. Sixteen digits of SHA-256 are 64 bits:
too many to meet by trying.
"""
import re
from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest

from inspections.evidence.models import Seal
from inspections.people.models import Site

DIGITS = 16
WRITTEN = re.compile(r"seal-([1-9][0-9]{0,9})-([0-9a-f]{16,64})$", re.ASCII)


@dataclass(frozen=True)
class Anchor:
    """A seal as somebody outside noted it: its number at the site, and the first 16 to 64 digits of its hash."""

    number: int
    digits: str

    def is_of(self, site: Site) -> bool:
        """Whether the site's chain still has that seal."""
        return Seal.objects.filter(site=site, number=self.number, sha256__startswith=self.digits).exists()

    def agrees(self, statements: Iterable[tuple[int, str, str]]) -> bool | None:
        """Whether seals (number, hash, hash of the one before) have that one; None where they do not reach it."""
        told = [sha256 for number, own, before in statements
                for at, sha256 in ((number, own), (number - 1, before)) if at == self.number]
        return all(sha256.startswith(self.digits) for sha256 in told) if told else None


def read_anchor(text: str) -> Anchor | None:
    """The anchor at the end of an address, or by itself (``seal-12-9f86d081884c7d65``); None where none stands."""
    found = WRITTEN.search(text.strip().lower())
    return Anchor(int(found[1]), found[2]) if found else None


def latest_of(site: Site) -> Seal | None:
    """The newest seal of a site; None before its first."""
    newest: Seal | None = Seal.objects.filter(site=site).order_by("-number").defer("content").first()
    return newest


def anchored(address: str, site: Site) -> str:
    """An address that also says which seal of the site is the latest now: ``…#seal-12-9f86d081884c7d65``."""
    newest = latest_of(site)
    return f"{address}#seal-{newest.number}-{newest.sha256[:DIGITS]}" if newest else address


def docket_address(request: HttpRequest, delivery_id: UUID, site: Site) -> str:
    """What the QR code of a docket says; the phone puts the same together without a signal."""
    at = anchored(f"/e/docket/{delivery_id}", site)
    return settings.PUBLIC_ADDRESS + at if settings.PUBLIC_ADDRESS else request.build_absolute_uri(at)
