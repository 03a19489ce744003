"""A hand in the database: rows altered by somebody who can take its guards away."""
from types import SimpleNamespace

from django.apps import apps
from django.db import connection
from django.db.models import QuerySet

from inspections.evidence import guards


def behind(model) -> QuerySet:
    """The model's rows without the application's guards or the database's (until the test's end)."""
    guards.remove(connection)
    return QuerySet(model)


class Unguarded:
    """The models as a migration sees them: without what this release's classes refuse."""

    @staticmethod
    def get_model(app: str, name: str) -> SimpleNamespace:
        return SimpleNamespace(objects=behind(apps.get_model(app, name)))
