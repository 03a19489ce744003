from django.apps import AppConfig


class ComparisonConfig(AppConfig):
    name = "inspections.comparison"
    label = "comparison"
