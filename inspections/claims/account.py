"""A supplier's own pages: all claims on it, what they and its deliveries came to, and the evidence of each.

Without scripts, as the pages by link are. Every page asks for the account first and looks only among that supplier's
rows; everywhere else its people are nobody (``people.sessions``).
"""
import functools
from collections.abc import Callable
from typing import Any
from uuid import UUID

from django import forms
from django.conf import settings
from django.contrib.auth import login, logout
from django.contrib.auth.forms import AuthenticationForm, SetPasswordForm
from django.db.models import Sum
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST, require_safe

from inspections.claims import standing as stands
from inspections.claims.answers import ClaimsQuery
from inspections.claims.invitations import invited
from inspections.claims.pages import takes_answers
from inspections.claims.selectors import MOST_ROWS, claim_row, claims_at, figures
from inspections.claims.supplier_people import own_delivery, supplier_of
from inspections.comparison.models import MonthTally
from inspections.errors import ApiProblem, Forbidden
from inspections.evidence.link_throttle import need_few_wrong, note_wrong
from inspections.evidence.pages import unseen
from inspections.messages import message
from inspections.people import trail
from inspections.people.known import remember
from inspections.people.models import Person, Role, Site
from inspections.people.sessions import SUPPLIER_PAGES
from inspections.records.models import Supplier
from inspections.strict import read_query

SIGN_IN = f"{SUPPLIER_PAGES}/sign-in"
COUNTED = ("deliveries", "delivered", "opened", "defective", "refused")
ORDERS = ("age", "deadline", "amount")


def for_supplier(view: Callable[..., Any], takes: Callable[..., Any] = require_safe) -> Callable[..., Any]:
    """Only for a supplier's person, whose supplier the view gets; nobody is led to the sign-in."""

    @functools.wraps(view)
    def asked(request: HttpRequest, **parts: Any) -> HttpResponse:
        if not request.user.is_authenticated:
            return HttpResponseRedirect(f"{SIGN_IN}?next={request.path}")
        supplier = supplier_of(request.user)
        if supplier is None:
            raise Forbidden("SUPPLIER-ONLY")
        return view(request, supplier, **parts)

    return unseen(asked, takes)


def of_own_delivery(view: Callable[..., Any], takes: Callable[..., Any] = require_safe) -> Callable[..., Any]:
    """A page of the evidence of one of the supplier's own deliveries; that it was opened is noted for the site."""

    @functools.wraps(view)
    def opened(request: HttpRequest, supplier: Supplier, *, delivery_id: UUID, **parts: Any) -> HttpResponse:
        delivery = own_delivery(supplier, delivery_id)
        trail.note_look(request, "supplier_looked", delivery.docket_number or delivery.pk, site=delivery.site)
        return view(request, delivery, base=f"{SUPPLIER_PAGES}/deliveries/{delivery.pk}", **parts)

    return for_supplier(opened, takes)


def overview(request: HttpRequest, supplier: Supplier) -> HttpResponse:
    """The supplier's claims by the filters of the address, and its figures."""
    given = {name: request.GET[name] for name in ("state", "over", "order", "site") if request.GET.get(name)}
    asked = read_query(ClaimsQuery, given).given()
    own = claims_at(Site.objects.all(), state="all", supplier=supplier.pk).filter(sent_at__isnull=False)
    found = claims_at(Site.objects.all(), supplier=supplier.pk, is_over=asked.pop("over") == "yes",
                      **asked).filter(sent_at__isnull=False)
    tallies = MonthTally.objects.filter(supplier=supplier)
    totals = {name: Sum(name, default=0) for name in COUNTED}
    return render(request, "claims/account.html", {
        "supplier": supplier, "person": request.user, "count": found.count(),
        "rows": [claim_row(claim) for claim in found[:MOST_ROWS]],
        "states": [(state, message(f"claims-state-{state}"))
                   for state in ("open", *(one for one in stands.STATES if one != stands.DRAFTED), "all")],
        "orders": [(order, message(f"claims-order-{order}")) for order in ORDERS],
        "sites": Site.objects.filter(deliveries__claims__in=own).distinct(),
        "asked": {"state": "open", "order": "age", **{name: str(value) for name, value in asked.items()},
                  "over": request.GET.get("over", "")},
        "figures": [{**one, "share": one["agreed_share"] is not None and f"{one['agreed_share']:.0%}"}
                    for one in figures(own)],
        "nothing": message("claims-figures-nothing"), "is_demo": any(claim.delivery.is_demo for claim in found[:1]),
        "goods": tallies.values("site__name").annotate(**totals).order_by("site__name"),
        "together": tallies.aggregate(**totals),
    })


class _SignIn(AuthenticationForm):
    """For suppliers' people; whoever is of the kitchen signs in at the desk."""

    def get_invalid_login_error(self) -> forms.ValidationError:
        return forms.ValidationError(message("SIGN-IN-WRONG"))

    def confirm_login_allowed(self, user: Person) -> None:
        super().confirm_login_allowed(user)
        if user.role != Role.SUPPLIER:
            raise forms.ValidationError(message("SUPPLIER-ONLY"))


@sensitive_post_parameters()
def _sign_in(request: HttpRequest) -> HttpResponse:
    form = _SignIn(request, data=request.POST or None)
    if request.method == "POST" and form.is_valid():
        login(request, form.get_user())
        answer = HttpResponseRedirect(_next(request))
        remember(request, answer, form.get_user().username)
        return answer
    return _form(request, "sign-in", _first_error(form), username=request.POST.get("username", ""), next=_next(request))


@sensitive_post_parameters()
def _invitation(request: HttpRequest, token: str) -> HttpResponse:
    need_few_wrong(request)
    person = invited(token)
    if person is None:
        note_wrong(request)
        raise ApiProblem("INVITATION-OVER", status=410)
    form = SetPasswordForm(person, request.POST or None)
    if request.method == "POST" and form.is_valid():
        form.save()
        login(request, person, backend="django.contrib.auth.backends.ModelBackend")
        trail.note(request, "password_set", person)
        return HttpResponseRedirect(SUPPLIER_PAGES)
    return _form(request, "invitation", _first_error(form), username=person.username, person=person)


def _sign_out(request: HttpRequest) -> HttpResponse:
    if request.user.is_authenticated:
        trail.note(request, "signed_out", request.user)
    logout(request)
    return HttpResponseRedirect(SIGN_IN)


def _posted_only(view: Callable[..., Any]) -> Callable[..., Any]:
    taking = require_POST(view)
    setattr(taking, "methods", ("post",))  # noqa: B010  for the table of rights, which cannot see into a function
    return taking


sign_in, invitation = unseen(_sign_in, takes_answers), unseen(_invitation, takes_answers)
sign_out = unseen(_sign_out, _posted_only)


def _form(request: HttpRequest, kind: str, refused: str, **told: Any) -> HttpResponse:
    told |= {"kind": kind, "refused": refused, "installation": settings.INSTALLATION_NAME}
    return render(request, "claims/sign_in.html", told, status=422 if refused else 200)


def _first_error(form: forms.BaseForm) -> str:
    return next((str(error) for errors in form.errors.values() for error in errors), "")


def _next(request: HttpRequest) -> str:
    """Where to go after the sign-in: a page of the account, and no other."""
    wanted = request.POST.get("next") or request.GET.get("next") or SUPPLIER_PAGES
    is_own = f"{wanted}/".startswith(f"{SUPPLIER_PAGES}/") and url_has_allowed_host_and_scheme(wanted, None)
    return wanted if is_own else SUPPLIER_PAGES
