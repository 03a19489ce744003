"""Every public key of this kitchen, for whoever checks a seal: plain text, no account."""
from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from inspections.evidence.rotation import PublishedKey, published_keys


@require_safe
def seal_keys(request: HttpRequest) -> HttpResponse:
    """The keys as text, oldest first; the file may be given to OpenSSL key by key."""
    told = [f"The public keys that {settings.INSTALLATION_NAME} has sealed records with. Compare the number of a key "
            "with the one on the evidence page or in seal.json.\n", *map(_words, published_keys())]
    if len(told) == 1:
        told.append("No record has been sealed yet.\n")
    return HttpResponse("\n".join(told), content_type="text/plain; charset=utf-8",
                        headers={"Cache-Control": "public, max-age=300"})


def _words(key: PublishedKey) -> str:
    until = f"{key.until:%Y-%m-%d %H:%M} UTC; a later seal by it does not count" if key.until else "today"
    return f"Key {key.id}\nUsed from {key.since:%Y-%m-%d %H:%M} UTC until {until}.\n{key.pem}"
