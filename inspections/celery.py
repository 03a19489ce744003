"""The Celery application. Tasks carry the id of a job row and nothing else (see records/jobs.py)."""
import os
import warnings

from celery import Celery
from celery.exceptions import SecurityWarning

# Celery warns root of pickled messages. Ours are JSON, and a container's only person is often root.
warnings.filterwarnings("ignore", message="You're running the worker with superuser", category=SecurityWarning)

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")

app = Celery("underlid")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks(["inspections.records", "imaging"])
