"""The ASGI door, for whoever prefers such a server."""
import os

from django.core.asgi import get_asgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
application = get_asgi_application()
