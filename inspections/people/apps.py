from django.apps import AppConfig


class PeopleConfig(AppConfig):
    name = "inspections.people"
    label = "people"
