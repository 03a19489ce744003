from django.apps import AppConfig


class RecordsConfig(AppConfig):
    name = "inspections.records"
    label = "records"
