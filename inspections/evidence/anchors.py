"""A site's latest seal in the hands of others: whoever holds it can tell later whether the chain was written anew.

It stands at the end of every supplier's link, and so in its QR code and in the message that the link travels with:
behind the ``#``, which browsers keep to themselves. Sixteen digits of SHA-256 are 64 bits: too many to meet by trying.
"""
from inspections.evidence.models import Seal
from inspections.people.models import Site

DIGITS = 16


def latest_of(site: Site) -> Seal | None:
    """The newest seal of a site; None before its first."""
    newest: Seal | None = Seal.objects.filter(site=site).order_by("-number").first()
    return newest


def anchored(address: str, site: Site) -> str:
    """An address that also says which seal of the site is the latest now: ``…#seal-12-9f86d081884c7d65``."""
    newest = latest_of(site)
    return f"{address}#seal-{newest.number}-{newest.sha256[:DIGITS]}" if newest else address
