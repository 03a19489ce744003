from django.apps import AppConfig
from django.contrib.auth.signals import user_logged_in


class PeopleConfig(AppConfig):
    name = "inspections.people"
    label = "people"

    def ready(self) -> None:
        from inspections.people import sessions

        user_logged_in.connect(sessions.begin, dispatch_uid="people.sessions")
