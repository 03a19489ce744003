from django.apps import AppConfig


class ComparisonConfig(AppConfig):
    name = "inspections.comparison"
    label = "comparison"

    def ready(self) -> None:
        from inspections.claims.mailing import SENDERS
        from inspections.comparison.summary_mail import send_summaries

        SENDERS.append(send_summaries)
