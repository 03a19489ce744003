"""The web server's door: Django's WSGI application behind ``inspections.front``."""
import gc
from importlib import import_module

from django.conf import settings

# Read at the start: the first photo of a process would wait for it, and on a busy machine that is long.
from inspections import celery  # noqa: F401
from inspections.errors import ApiProblem
from inspections.front import Front
from inspections.wsgi import application as django

application = Front(
    django, threads=settings.WEB_THREADS, most_bytes=settings.MOST_BODY_BYTES,
    sentence=lambda code, **facts: ApiProblem(code, **facts).to_json())

# What is loaded by now stays: Python's sweeps for garbage, which hold up whoever is being answered, leave it out.
import_module(settings.ROOT_URLCONF)
gc.collect()
gc.freeze()
