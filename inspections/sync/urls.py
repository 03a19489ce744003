"""Addresses of the device protocol, below ``/sync/``."""
from django.urls import path

from inspections.sync import api

urlpatterns = [
    path("reference", api.Reference.as_view()),
    path("documents/<uuid:document_id>", api.Documents.as_view()),
    path("documents/<uuid:document_id>/signature", api.Signature.as_view()),
    path("deliveries/<uuid:delivery_id>/addenda/<uuid:addendum_id>", api.Addenda.as_view()),
    path("thermometers/<uuid:thermometer_id>/checks/<uuid:check_id>", api.IcePointChecks.as_view()),
    path("handed-in", api.HandedInEntries.as_view()),
    path("advisories", api.Advisories.as_view()),
    path("photos/<str:sha256>", api.StoredPhotos.as_view()),
    path("uploads/", api.Uploads.as_view()),
    path("uploads/<uuid:upload_id>", api.UploadPieces.as_view()),
]
