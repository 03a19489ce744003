from django.apps import AppConfig


class EvidenceConfig(AppConfig):
    name = "inspections.evidence"
    label = "evidence"
