from django.apps import AppConfig


class SyncConfig(AppConfig):
    name = "inspections.sync"
    label = "sync"
