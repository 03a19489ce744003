"""Addresses of evidence: the supplier's page below ``/e/``, the desk's side below ``/api/``."""
from django.urls import path, re_path

from inspections.evidence import api, epcis_api, key_page, logger_api, pages, worksheet_page

urlpatterns = [
    path("e/keys", key_page.seal_keys, name="seal-keys"),
    path("e/<str:token>", pages.page, name="evidence"),
    path("e/<str:token>/worksheet", worksheet_page.worksheet, name="evidence-worksheet"),
    path("verify", pages.verify, name="verify"),
    path("e/<str:token>/evidence.pdf", pages.pdf, name="evidence-pdf"),
    path("e/<str:token>/bundle.zip", pages.bundle, name="evidence-bundle"),
    re_path(
        r"^e/(?P<token>[^/]+)/photos/(?P<sha256>[0-9a-f]{64})/(?P<kind>thumb|original|overlay|histogram)$",
        pages.photo, name="evidence-photo",
    ),
    path("e/<str:token>/logger-files/<uuid:file_id>", pages.logger_file, name="evidence-logger-file"),
    path("api/deliveries/<uuid:delivery_id>/logger-files", logger_api.LoggerFiles.as_view()),
    path("api/logger-files/<uuid:file_id>", logger_api.OneLoggerFile.as_view()),
    path("api/logger-files/<uuid:file_id>/file", logger_api.LoggerFileBytes.as_view()),
    path("api/deliveries/<uuid:delivery_id>/evidence-links", api.Links.as_view()),
    path("api/deliveries/<uuid:delivery_id>/worksheet", worksheet_page.Worksheet.as_view()),
    path("api/deliveries/<uuid:delivery_id>/epcis", epcis_api.Events.as_view()),
    path("api/deliveries/<uuid:delivery_id>/seals", api.Seals.as_view()),
    path("api/evidence-links/<uuid:link_id>", api.Link.as_view()),
]
