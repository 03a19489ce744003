from django.urls import path

from inspections.people.api import SessionView

urlpatterns = [path("session", SessionView.as_view(), name="session")]
