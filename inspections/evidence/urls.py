"""Addresses of evidence: the supplier's page below ``/e/``, the desk's side below ``/api/``."""
from django.urls import path, re_path

from inspections.evidence import api, pages

urlpatterns = [
    path("e/<str:token>", pages.page, name="evidence"),
    path("e/<str:token>/bundle.zip", pages.bundle, name="evidence-bundle"),
    re_path(
        r"^e/(?P<token>[^/]+)/photos/(?P<sha256>[0-9a-f]{64})/(?P<kind>thumb|original|overlay|histogram)$",
        pages.photo, name="evidence-photo",
    ),
    path("api/deliveries/<uuid:delivery_id>/evidence-links", api.Links.as_view()),
    path("api/deliveries/<uuid:delivery_id>/seals", api.Seals.as_view()),
    path("api/evidence-links/<uuid:link_id>", api.Link.as_view()),
]
