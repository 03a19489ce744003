"""Addresses. Everything that is not an address of the server's is the app (frontend/dist/index.html)."""
from django.contrib import admin
from django.urls import include, path, re_path

from inspections import metrics, openapi, spa

admin.site.site_header = admin.site.site_title = "Underlid: reference data"
admin.site.index_title = "Suppliers, specifications, people, equipment"

handler400 = "inspections.spa.bad_request"
handler404 = "inspections.spa.not_found"
handler500 = "inspections.spa.trouble"

urlpatterns = [
    path("admin/", admin.site.urls),
    path("api/openapi.json", openapi.served),
    path("api/", include("inspections.people.urls")),
    path("api/", include("inspections.records.urls")),
    path("api/", include("inspections.comparison.urls")),
    path("sync/", include("inspections.sync.urls")),
    path("", include("inspections.evidence.urls")),
    path("", include("inspections.claims.urls")),
    path("metrics", metrics.metrics),
    path("health", spa.health),
    path("health/live", spa.live),
    path("health/ready", spa.ready),
    re_path(r"^(?:|(?:walk|desk|how|waiting|sign-in)(?:/.*)?)$", spa.app),
]
