"""The least that Django can do with a request: keep its body as one row, flushed, and say so.

``bench_sync`` measures the device protocol against it, in the same run, behind the same web server, with the same
database settings. No session, no check, no meaning: what is slower than this is what the protocol does.
"""
import uuid

from django.conf import settings

from inspections import settings as ours
from inspections.front import Front

settings.configure(
    SECRET_KEY="bare", ALLOWED_HOSTS=["127.0.0.1"], ROOT_URLCONF=__name__, MIDDLEWARE=[], DATABASES=ours.DATABASES,
    DATA_UPLOAD_MAX_MEMORY_SIZE=ours.DATA_UPLOAD_MAX_MEMORY_SIZE, USE_TZ=True, LOGGING=ours.LOGGING)

import django  # noqa: E402
from django.core.wsgi import get_wsgi_application  # noqa: E402
from django.db import connection, transaction  # noqa: E402
from django.http import HttpRequest, JsonResponse  # noqa: E402
from django.urls import path  # noqa: E402

django.setup()


def keep(request: HttpRequest) -> JsonResponse:
    """One row, in one transaction that is flushed before the answer."""
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("INSERT INTO bare (id, body) VALUES (%s, %s)", [uuid.uuid4().hex, request.body])
    return JsonResponse({"kept": len(request.body)}, status=201)


urlpatterns = [path("keep", keep)]
application = Front(get_wsgi_application(), threads=ours.WEB_THREADS, most_bytes=ours.MOST_BODY_BYTES,
                    sentence=lambda code, **facts: {"code": code, **facts})


def make_table() -> None:
    kind = "bytea" if connection.vendor == "postgresql" else "blob"
    with connection.cursor() as cursor:
        cursor.execute(f"CREATE TABLE IF NOT EXISTS bare (id char(32) PRIMARY KEY, body {kind})")


if __name__ == "__main__":
    make_table()
