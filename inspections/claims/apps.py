from django.apps import AppConfig


class ClaimsConfig(AppConfig):
    name = "inspections.claims"
    label = "claims"

    def ready(self):
        from inspections.claims import mailing  # noqa: F401  it listens for a worker that is ready
