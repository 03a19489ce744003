from django.apps import AppConfig
from django.db.models.signals import post_migrate, pre_migrate


class EvidenceConfig(AppConfig):
    name = "inspections.evidence"
    label = "evidence"

    def ready(self) -> None:
        from inspections.evidence import guards

        pre_migrate.connect(guards.before_migrate, sender=self, dispatch_uid="guards")
        post_migrate.connect(guards.after_migrate, sender=self, dispatch_uid="guards")
