"""Addresses of evidence: the supplier's page below ``/e/``, the desk's side below ``/api/``."""
from collections.abc import Callable
from typing import Any

from django.urls import path, re_path

from inspections.evidence import api, docket_page, epcis_api, key_page, logger_api, pages, verify_page, worksheet_page
from inspections.evidence.pages import behind_link

#: What goes with the page of a delivery's evidence, below its address.
PARTS: dict[str, Callable[..., Any]] = {
    "worksheet": worksheet_page.worksheet,
    r"evidence\.pdf": pages.pdf,
    r"bundle\.zip": pages.bundle,
    r"photos/(?P<sha256>[0-9a-f]{64})/(?P<kind>thumb|original|overlay|histogram)": pages.photo,
    r"logger-files/(?P<file_id>[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})": pages.logger_file,
}
urlpatterns = [
    path("e/docket/<uuid:delivery_id>", docket_page.docket, name="docket"),
    path("e/keys", key_page.seal_keys, name="seal-keys"),
    path("e/<str:token>", behind_link(pages.page, counts=True), name="evidence"),
    path("verify", verify_page.verify, name="verify"),
    *(re_path(f"^e/(?P<token>[^/]+)/{route}$", behind_link(view)) for route, view in PARTS.items()),
    path("api/deliveries/<uuid:delivery_id>/logger-files", logger_api.LoggerFiles.as_view()),
    path("api/logger-files/<uuid:file_id>", logger_api.OneLoggerFile.as_view()),
    path("api/logger-files/<uuid:file_id>/file", logger_api.LoggerFileBytes.as_view()),
    path("api/deliveries/<uuid:delivery_id>/evidence-links", api.Links.as_view()),
    path("api/deliveries/<uuid:delivery_id>/worksheet", worksheet_page.Worksheet.as_view()),
    path("api/deliveries/<uuid:delivery_id>/epcis", epcis_api.Events.as_view()),
    path("api/deliveries/<uuid:delivery_id>/seals", api.Seals.as_view()),
    path("api/evidence-links/<uuid:link_id>", api.Link.as_view()),
]
