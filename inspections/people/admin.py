"""People and sites, in the operator's own pages."""
from django.contrib import admin
from django.contrib.auth.admin import UserAdmin
from django.contrib.auth.models import Group

from inspections.people.models import Device, Person, Site

admin.site.unregister(Group)


@admin.register(Site)
class SiteAdmin(admin.ModelAdmin):
    list_display = ["name", "code", "timezone", "currency", "market"]


@admin.register(Person)
class PersonAdmin(UserAdmin):
    list_display = ["name", "username", "role", "is_active"]
    list_filter = ["role", "sites", "is_active"]
    search_fields = ["name", "username"]
    ordering = ["name"]
    filter_horizontal = ["sites"]
    fieldsets = [
        (None, {"fields": ["username", "password", "name", "email"]}),
        ("What they may do", {"fields": ["role", "sites", "is_active"]}),
    ]
    add_fieldsets = [(None, {"fields": ["username", "name", "role", "sites", "password1", "password2"]})]


@admin.register(Device)
class DeviceAdmin(admin.ModelAdmin):
    list_display = ["label", "person", "last_seen"]
    readonly_fields = ["person", "last_seen"]

    def has_add_permission(self, request) -> bool:
        return False
