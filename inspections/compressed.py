"""Answers that are text go out compressed; files of the app are compressed ahead of time by WhiteNoise's own means.

Nothing that a stranger chooses stands in one answer with a secret of ours: sessions and the key of the page are
cookies, and Django masks the one token that its forms carry anew each time. So the length of a compressed answer
gives nothing away (BREACH).
"""
import brotli
from django.http import HttpRequest, HttpResponse
from django.middleware.gzip import GZipMiddleware
from django.utils.cache import patch_vary_headers

LEAST_BYTES = 400
TEXT = ("text/", "application/json", "application/ld+json", "application/problem+json", "image/svg+xml")


class Compressed(GZipMiddleware):
    """Middleware: Brotli where the browser takes it, else gzip as Django does it."""

    def process_response(self, request: HttpRequest, response: HttpResponse) -> HttpResponse:
        is_text = response.headers.get("Content-Type", "").startswith(TEXT)
        if response.streaming or not is_text or len(response.content) < LEAST_BYTES or "Content-Encoding" in response:
            return response
        if "br" not in [word.split(";")[0].strip() for word in request.headers.get("Accept-Encoding", "").split(",")]:
            return super().process_response(request, response)
        patch_vary_headers(response, ("Accept-Encoding",))
        response.content = brotli.compress(response.content, quality=5)
        response.headers["Content-Length"] = str(len(response.content))
        response.headers["Content-Encoding"] = "br"
        if (tag := response.headers.get("ETag", "")).startswith('"'):
            response.headers["ETag"] = f"W/{tag}"
        return response
