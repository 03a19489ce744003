"""The WSGI door (reached through ``inspections.asgi``)."""
import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
application = get_wsgi_application()
