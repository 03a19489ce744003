from django.apps import AppConfig


class ClaimsConfig(AppConfig):
    name = "inspections.claims"
    label = "claims"

    def ready(self):
        from django.contrib.auth.signals import user_logged_out

        from inspections.claims import mailing  # noqa: F401  it listens for a worker that is ready
        from inspections.claims.notifications import forget_browser

        user_logged_out.connect(forget_browser)
