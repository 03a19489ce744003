"""The operator's own pages for reference data; everybody else keeps what is theirs at the desk (``keeping``).

Versions are published by the acts, so that the admin cannot write what the judgements cannot use; signed
deliveries are not here at all, because nobody may edit them.
"""
from django import forms
from django.contrib import admin
from django.core.exceptions import ValidationError
from django.http import HttpRequest

from inspections.errors import ApiProblem
from inspections.people.access import sites_for
from inspections.records.models import (
    Freezer,
    IcePointCheck,
    Order,
    OrderLine,
    Specification,
    SpecificationVersion,
    Supplier,
    Thermometer,
)
from inspections.records.services.reference import need_specification, publish_specification
from inspections.records.thermometers import with_newest_checks


class OfOwnSites(admin.ModelAdmin):
    """Rows that belong to a site: only those of the sites that the person looks after."""

    def get_queryset(self, request: HttpRequest):
        return super().get_queryset(request).filter(site__in=sites_for(request.user))

    def formfield_for_foreignkey(self, db_field, request, **more):
        if db_field.name == "site":
            more["queryset"] = sites_for(request.user)
        return super().formfield_for_foreignkey(db_field, request, **more)


@admin.register(Supplier)
class SupplierAdmin(admin.ModelAdmin):
    list_display = ["name", "code", "contact_name", "contact_email", "is_active"]
    list_filter = ["is_active"]
    search_fields = ["name", "code"]


class VersionForm(forms.ModelForm):
    """What was agreed, as JSON, held to what the judgements can read."""

    class Meta:
        model = SpecificationVersion
        fields = ["specification", "data"]

    def clean_data(self) -> dict:
        try:
            return need_specification(self.cleaned_data["data"])
        except ApiProblem as refusal:
            raise ValidationError(str(refusal)) from refusal


@admin.register(Specification)
class SpecificationAdmin(admin.ModelAdmin):
    list_display = ["code", "name", "is_active"]
    search_fields = ["code", "name"]


@admin.register(SpecificationVersion)
class SpecificationVersionAdmin(admin.ModelAdmin):
    """Adding publishes the next version; a published one can only be read."""

    form = VersionForm
    list_display = ["specification", "version", "created_by", "created_at"]
    list_filter = ["specification"]

    def has_change_permission(self, request: HttpRequest, obj=None) -> bool:
        return False

    def has_view_permission(self, request: HttpRequest, obj=None) -> bool:
        return self.has_add_permission(request)

    def has_delete_permission(self, request: HttpRequest, obj=None) -> bool:
        return False

    def save_model(self, request: HttpRequest, obj: SpecificationVersion, form, change: bool) -> None:
        kept = publish_specification(
            code=obj.specification.code, name=obj.specification.name, data=obj.data, person=request.user
        )
        obj.pk, obj.version, obj._state.adding = kept.pk, kept.version, False


class LineInline(admin.TabularInline):
    model = OrderLine
    extra = 1


@admin.register(Order)
class OrderAdmin(OfOwnSites):
    list_display = ["number", "supplier", "site", "expected_on", "source"]
    list_filter = ["site", "supplier", "expected_on"]
    search_fields = ["number"]
    inlines = [LineInline]


@admin.register(Thermometer)
class ThermometerAdmin(OfOwnSites):
    """The list tells the last check on record; the form holds only what is noted by hand."""

    list_display = ["name", "site", "checked", "reading", "due", "in_use"]
    list_filter = ["site", "in_use"]
    fieldsets = [
        (None, {"fields": ["site", "name", "accuracy_c", "in_use"]}),
        ("Last check, noted by hand", {
            "fields": ["last_checked_on", "last_check_c", "check_due_on"],
            "description": "Checks filed from a phone are kept by themselves and count unless a later day stands here.",
        }),
    ]

    def get_queryset(self, request: HttpRequest):
        return with_newest_checks(super().get_queryset(request))

    @admin.display(description="last checked on")
    def checked(self, row: Thermometer):
        return row.last_check.on

    @admin.display(description="reading in ice water, °C")
    def reading(self, row: Thermometer):
        return row.last_check.reading_c

    @admin.display(description="check due on")
    def due(self, row: Thermometer):
        return row.last_check.due_on


@admin.register(IcePointCheck)
class IcePointCheckAdmin(admin.ModelAdmin):
    """Checks filed from phones, to be read: one that was wrong is followed by another, never altered."""

    list_display = ["thermometer", "site", "day", "typed", "reading_c", "allowed_c", "passed", "due_on", "done_by"]
    list_filter = ["passed", "thermometer__site", "day"]
    search_fields = ["thermometer__name", "done_by"]
    list_select_related = ["thermometer__site"]

    def get_queryset(self, request: HttpRequest):
        return super().get_queryset(request).filter(thermometer__site__in=sites_for(request.user))

    def has_view_permission(self, request: HttpRequest, obj=None) -> bool:
        return request.user.has_perm("records.change_thermometer")

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj=None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj=None) -> bool:
        return False

    @admin.display(description="site", ordering="thermometer__site__name")
    def site(self, row: IcePointCheck):
        return row.thermometer.site

    @admin.display(description="as typed")
    def typed(self, row: IcePointCheck) -> str:
        return f"{row.entered} {row.get_unit_display()}"


@admin.register(Freezer)
class FreezerAdmin(OfOwnSites):
    list_display = ["name", "site", "in_use"]
    list_filter = ["site"]
