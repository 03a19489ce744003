"""Types and lengths of what the desk sends to be kept; what it means is judged where it is saved."""
from rest_framework import serializers as s

from inspections.people.models import Market, Role


class OfPerson(s.Serializer):
    username = s.CharField(max_length=150)
    name = s.CharField(max_length=120)
    email = s.EmailField(allow_blank=True)
    role = s.ChoiceField(Role.choices)
    sites = s.ListField(child=s.UUIDField(), max_length=500)
    is_active = s.BooleanField()
    password = s.CharField(max_length=500, allow_blank=True, trim_whitespace=False)
    pin = s.CharField(max_length=8, allow_blank=True)


class OfSite(s.Serializer):
    name = s.CharField(max_length=80)
    code = s.CharField(max_length=12)
    timezone = s.CharField(max_length=64)
    currency = s.RegexField("^[A-Z]{3}$", error_messages={"invalid": "Write three capital letters, such as EUR."})
    market = s.ChoiceField(Market.choices)


class OfSupplier(s.Serializer):
    name = s.CharField(max_length=120)
    code = s.CharField(max_length=20)
    contact_name = s.CharField(max_length=120, allow_blank=True)
    contact_email = s.EmailField(allow_blank=True)
    is_active = s.BooleanField()


class OfSpecification(s.Serializer):
    """Name and use; what was agreed is held to what the judgements can read (``acts.reference``)."""

    code = s.CharField(max_length=40)
    name = s.CharField(max_length=160)
    species_code = s.CharField(max_length=10)
    grade = s.CharField(max_length=40)
    is_active = s.BooleanField()


class OfFreezer(s.Serializer):
    site = s.UUIDField()
    name = s.CharField(max_length=60)
    in_use = s.BooleanField()


class OfThermometer(OfFreezer):
    accuracy_c = s.FloatField(min_value=0.01, max_value=10)
    last_checked_on = s.DateField(allow_null=True)
    last_check_c = s.FloatField(allow_null=True, min_value=-50, max_value=50)
    check_due_on = s.DateField(allow_null=True)
