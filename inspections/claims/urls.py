"""Addresses of claims: suppliers' pages by link (``/e/``) and account (``/supplier``), the desk's below ``/api/``."""
from django.urls import path, re_path

from inspections.claims import account, api, notifications, pages
from inspections.claims.account import for_supplier, of_own_delivery
from inspections.claims.served import KINDS
from inspections.evidence.pages import behind_link
from inspections.evidence.pages import page as evidence_page
from inspections.evidence.urls import PARTS

ID = "[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"
FILE = rf"(?P<claim_id>{ID})/files/(?P<sha256>[0-9a-f]{{64}})/(?P<kind>{KINDS})$"
OWN = f"supplier/deliveries/(?P<delivery_id>{ID})"
urlpatterns = [
    path("e/<str:token>/claims/<uuid:claim_id>", pages.behind_link_to_answer(pages.claim)),
    re_path(rf"^e/(?P<token>[^/]+)/claims/{FILE}", behind_link(pages.file)),
    path("supplier", for_supplier(account.overview)),
    path("supplier/sign-in", account.sign_in),
    path("supplier/sign-out", account.sign_out),
    path("supplier/invitation/<str:token>", account.invitation),
    path("supplier/deliveries/<uuid:delivery_id>", of_own_delivery(evidence_page)),
    *(re_path(f"^{OWN}/{route}$", of_own_delivery(view)) for route, view in PARTS.items()),
    path("supplier/deliveries/<uuid:delivery_id>/claims/<uuid:claim_id>",
         of_own_delivery(pages.claim, pages.takes_answers)),
    re_path(f"^{OWN}/claims/{FILE}", of_own_delivery(pages.file)),
    path("api/claims", api.Claims.as_view()),
    path("api/claims/figures", api.Figures.as_view()),
    re_path(r"^api/claims\.(?P<ending>csv|xlsx)$", api.Table.as_view()),
    path("api/claims/<uuid:claim_id>", api.OneClaim.as_view()),
    path("api/claims/<uuid:claim_id>/entries", api.Entries.as_view()),
    path("api/claims/<uuid:claim_id>/mails/<uuid:mail_id>", api.Mail.as_view()),
    re_path(rf"^api/claims/{FILE}", api.ClaimFile.as_view()),
    path("api/deliveries/<uuid:delivery_id>/claims", api.ClaimsOf.as_view()),
    path("api/suppliers/<uuid:supplier_id>/claim-terms", api.Terms.as_view()),
    path("api/notifications", notifications.Notifications.as_view()),
    path("api/notifications/<uuid:subscription_id>", notifications.OneNotification.as_view()),
    path("api/suppliers/<uuid:supplier_id>/people", api.SupplierPeople.as_view()),
    path("api/suppliers/<uuid:supplier_id>/people/<int:person_id>", api.OneSupplierPerson.as_view()),
]
