"""Addresses of claims: the supplier's pages below ``/e/``, the desk's side below ``/api/``."""
from django.urls import path, re_path

from inspections.claims import api, pages
from inspections.claims.served import KINDS

ID = "[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"
FILE = rf"(?P<claim_id>{ID})/files/(?P<sha256>[0-9a-f]{{64}})/(?P<kind>{KINDS})$"
urlpatterns = [
    path("e/<str:token>/claims/<uuid:claim_id>", pages.claim, name="claim"),
    re_path(rf"^e/(?P<token>[^/]+)/claims/{FILE}", pages.file, name="claim-file"),
    path("api/claims", api.Claims.as_view()),
    path("api/claims/figures", api.Figures.as_view()),
    re_path(r"^api/claims\.(?P<ending>csv|xlsx)$", api.Table.as_view()),
    path("api/claims/<uuid:claim_id>", api.OneClaim.as_view()),
    path("api/claims/<uuid:claim_id>/entries", api.Entries.as_view()),
    path("api/claims/<uuid:claim_id>/mails/<uuid:mail_id>", api.Mail.as_view()),
    re_path(rf"^api/claims/{FILE}", api.ClaimFile.as_view()),
    path("api/deliveries/<uuid:delivery_id>/claims", api.ClaimsOf.as_view()),
    path("api/suppliers/<uuid:supplier_id>/claim-terms", api.Terms.as_view()),
]
