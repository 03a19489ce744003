"""What somebody reads after too many wrong passwords, in the app and in the reference data alike."""
from django.http import HttpRequest, HttpResponse, JsonResponse

from inspections.errors import SENTENCES, Refusal


def answer(request: HttpRequest, response: HttpResponse | None, credentials: dict | None = None) -> HttpResponse:
    """Called by the lockout in place of ``response``: the sentence, as JSON or as plain text."""
    if request.path.startswith(("/api/", "/sync/")):
        return JsonResponse(Refusal("SIGN-IN-LOCKED").to_json(), status=429)
    return HttpResponse(SENTENCES["SIGN-IN-LOCKED"], status=429, content_type="text/plain; charset=utf-8")
