"""Which address a request came from: that of the person's network, not of the proxy in front."""
import ipaddress

from django.conf import settings
from django.http import HttpRequest


def client_address(request: HttpRequest) -> str:
    """The address to count wrong tries by.

    Returns
    -------
    str
        An IPv4 address, or the first address of an IPv6 /64: one household or phone holds a whole /64, so
        counting single addresses in it would count nothing.

    Notes
    -----
    Each of the ``PROXIES`` in front adds the address that it saw at the right end of ``X-Forwarded-For``; what
    stands further left is the sender's own word and is not believed.
    """
    told = request.META.get("REMOTE_ADDR", "")
    if settings.PROXIES:
        seen = [part.strip() for part in request.META.get("HTTP_X_FORWARDED_FOR", "").split(",")]
        told = (seen[-settings.PROXIES] if len(seen) >= settings.PROXIES else "") or told
    try:
        address = ipaddress.ip_address(told)
    except ValueError:
        # A socket of this machine has no address; a proxy that writes something else counts as one sender.
        return "0.0.0.0"  # noqa: S104  a name for the counter, nothing listens there
    address = getattr(address, "ipv4_mapped", None) or address
    if address.version == 6:
        return str(ipaddress.ip_network((address, 64), strict=False).network_address)
    return str(address)
