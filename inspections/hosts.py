"""Which names this server answers to.

A page that answers to any name can be reached through a name of somebody else's (DNS rebinding), and a link built
from such a request leads a supplier there. Where ``UNDERLID_HOSTS`` names none, the server answers to this machine's
name and to the address by which the very connection came in: that is the machine's own, whatever the network gave
it today, and it is an address, which nobody else's name can be.
"""
import ipaddress
import socket
from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse

THIS_MACHINE = ["localhost", "127.0.0.1", "[::1]"]


def own_names() -> list[str]:
    """Names by which this machine is known to itself and, by multicast DNS, to its neighbours."""
    name = socket.gethostname().split(".")[0].lower()
    return [*THIS_MACHINE, name, f"{name}.local"] if name else THIS_MACHINE


class OwnAddress:
    """Middleware: lets a request in that was sent to the machine's own address, by that address.

    ``SERVER_NAME`` is what the web server's socket says its own end of the connection is (``inspections.front``);
    no header can change it.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if settings.ANSWERS_TO_OWN_ADDRESS:
            own = _address(request.META.get("SERVER_NAME", ""))
            if own and own not in settings.ALLOWED_HOSTS:
                settings.ALLOWED_HOSTS.append(own)
        return self.get_response(request)


def _address(text: str) -> str:
    """The address as a ``Host`` header writes it; empty for a name."""
    try:
        found = ipaddress.ip_address(text)
    except ValueError:
        return ""
    return f"[{found}]" if found.version == 6 else str(found)
