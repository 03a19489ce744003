"""Where anybody checks an evidence file in an own browser; the same for all, and nothing is sent to it."""
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from inspections.messages import message

#: The script's sentences, by the names that it and ``bundle.js`` use, and the values that it puts in.
SAYS = (
    "checking", "every", "altered", "all-hold", "do-not-rely", "to-the-byte", "hash", "key", "none", "gone", "no-https",
    "holds", "holds-not", "not-covered", "anchor-unread", "anchor-beyond", "anchor-holds", "anchor-broken",
    "readable", "signed", "names-record", "names-key", "adds", "key-expected", "its-name", "sealed", "there", "beside",
    "part-missing", "no-ed25519", "no-zip", "list-damaged", "packed-otherwise", "too-large", "name-twice", "cut-off",
    "larger", "not-unpacked",
)
VALUES = {name: f"{{{name}}}" for name in ("file", "files", "what", "number", "kind", "count", "docket", "hash")}


@require_safe
def verify(request: HttpRequest) -> HttpResponse:
    """The page, with every sentence that its script may say."""
    return render(request, "evidence/verify.html", {
        "words": {name: message(f"evidence-says-{name}", **VALUES) for name in SAYS}})
