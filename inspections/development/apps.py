from django.apps import AppConfig


class DevelopmentConfig(AppConfig):
    name = "inspections.development"
    label = "development"
