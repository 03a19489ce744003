"""The Celery application. Tasks carry the id of a job row and nothing else (see records/jobs.py)."""
import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")

app = Celery("underlid")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks(["inspections.records", "imaging"])
