"""Reference data gets a new version. Nothing that judged a delivery is ever altered."""
from typing import Any

from django.db import transaction
from django.db.models import Max

from inspections.errors import Unprocessable
from inspections.people.models import Person
from inspections.records.models import LimitSet, Specification, SpecificationVersion
from inspections.trade.grades import customary_per, parse_grade
from inspections.trade.limits import DEFAULT_LIMITS, PLANS, UnusableLimits, limits_for, limits_from_json
from inspections.trade.quantities import UnusableGrade
from inspections.trade.species import BY_CODE
from inspections.trade.specification import specifications_from_json
from inspections.trade.wording import WORDS, filled

#: What a version holds; other keys are refused, so that a typing error is not silently ignored.
FIELDS = (
    "species_code", "presentation", "state", "grade", "carton_net_g", "units_per_carton", "declared_glaze_percent",
    "origin", "method", "market", "min_life_share", "advisory", "overrides",
)
HINTS = {
    "presentation": "Use one of HOSO, HLSO, EZP, PTO, PDTO, PUD, PD, BTTY, PPV.",
    "state": "Use raw, part_cooked or cooked.",
    "market": "Use EU, US, ANZ or CODEX.",
    "method": "Use farmed, caught or caught_freshwater, or leave it out.",
    "carton_net_g": "Enter the net weight of a carton, above 0 and at most 100 kg.",
    "units_per_carton": "Enter a whole number from 1 to 1000.",
    "declared_glaze_percent": "Enter 0 to 99, or leave it out.",
    "min_life_share": "Enter a share from 0 to 1, such as 0.6667, or leave it out.",
}
#: What no version can do without, with values that can be used.
NEEDED = {"presentation": "HLSO", "state": "raw", "market": "EU", "carton_net_g": 10000.0, "units_per_carton": 5}
DEFAULTS: dict[str, Any] = {"declared_glaze_percent": None, "origin": [], "method": None, "min_life_share": None,
                            "advisory": True, "overrides": {}}  # fmt: skip


def publish_specification(
    *, code: str, name: str, data: dict, person: Person | None, is_demo: bool = False
) -> SpecificationVersion:
    """A new version of a specification; the first one makes the specification.

    Parameters
    ----------
    code, name : str
        As the kitchen calls it; the code finds it again.
    data : dict
        What was agreed (see FIELDS).
    person : Person or None
        Who publishes; None for a command.

    Raises
    ------
    Unprocessable
        SPEC-…: with field and value.

    Notes
    -----
    One transaction. The same data as in the newest version writes no version; only the name may change.
    """
    data = need_specification(data)
    with transaction.atomic():
        specification, _ = Specification.objects.get_or_create(code=code, defaults={"name": name, "is_demo": is_demo})
        newest = specification.versions.select_for_update().order_by("-version").first()
        if specification.name != name:
            specification.name = name
            specification.full_clean()
            specification.save()
        if newest is not None and newest.data == data:
            return newest
        version = SpecificationVersion(
            specification=specification, version=newest.version + 1 if newest else 1, data=data, created_by=person
        )
        version.full_clean()
        version.save()
    return version


def switch_advice(*, specification: Specification, is_on: bool, person: Person) -> SpecificationVersion:
    """Switch the photo advice on or off for a specification, by a new version of it.

    Parameters
    ----------
    person : Person
        Who switches; kept with the version and its time.

    Raises
    ------
    Unprocessable
        SPEC-NO-VERSION: nothing was agreed yet. SPEC-…: what was agreed can no longer be used as it stands.

    Notes
    -----
    One transaction. Switching to what it is already writes nothing. Photos of deliveries that are not signed
    yet are asked about no more from then on (``advising``); advice given before stays with its photo.
    """
    with transaction.atomic():
        newest = specification.versions.select_for_update().order_by("-version").first()
        if newest is None:
            raise Unprocessable("SPEC-NO-VERSION", specification=specification.code)
        return publish_specification(
            code=specification.code, name=specification.name, data={**newest.data, "advisory": is_on}, person=person
        )


def need_specification(data: dict) -> dict:
    """The data of a version, complete with defaults, when the judgements can use it.

    Raises
    ------
    Unprocessable
        SPEC-FIELD, SPEC-SPECIES, SPEC-GRADE, SPEC-LIMITS.
    """
    for fault in specification_faults(data):
        raise fault
    return {**DEFAULTS, **data}


def specification_faults(data: dict) -> list[Unprocessable]:
    """Every entry of a version's data that the judgements cannot use; each names its field."""
    faults = [Unprocessable("SPEC-FIELD", field=field, value=data[field], hint="There is no such entry.")
              for field in data if field not in FIELDS]
    data = {**DEFAULTS, **data}
    if data.get("species_code") not in BY_CODE:
        faults.append(Unprocessable("SPEC-SPECIES", value=data.get("species_code"), field="species_code"))
    faults += _field_faults(data)
    try:
        parse_grade(data.get("grade") or "", customary_per(data.get("presentation") or ""))
    except UnusableGrade:
        faults.append(Unprocessable("SPEC-GRADE", value=data.get("grade"), field="grade"))
    try:
        limits_for(limits_from_json(DEFAULT_LIMITS), data["overrides"])
    except UnusableLimits as trouble:
        faults.append(Unprocessable("SPEC-LIMITS", why=_why(trouble), field="overrides"))
    return faults


def _field_faults(data: dict) -> list[Unprocessable]:
    unusable = _unusable(data) | dict.fromkeys(field for field in NEEDED if data.get(field) in (None, ""))
    # the reader stops after a field that it cannot do without: it reads on with others in their place
    unusable |= _unusable({**data, **{field: NEEDED[field] for field in unusable if field in NEEDED}})
    return [Unprocessable("SPEC-FIELD", field=field, value=data.get(field) or "", hint=HINTS.get(field, ""))
            for field in unusable]


def _unusable(data: dict) -> dict[str, None]:
    _, unusable = specifications_from_json([data])
    return dict.fromkeys(each.path.rpartition(".")[2] for each in unusable)


def publish_limits(*, data: dict, person: Person | None) -> LimitSet:
    """A new version of a set of limits, current from now on.

    Parameters
    ----------
    data : dict
        ``{"name", "default_plan", "limits"}``; an id or version in it is not looked at.

    Raises
    ------
    Unprocessable
        LIMITS-01 to LIMITS-07, LIMITS-PLAN, LIMITS-NAME.

    Notes
    -----
    One transaction: the version is written and becomes the current one, so its author and time tell who brought
    these limits into use, and when. The same as the current ones write nothing. Open documents keep the set that
    they were begun with.
    """
    name, kept = _need_limits(data)
    with transaction.atomic():
        current = LimitSet.objects.filter(is_current=True).first()
        if current is not None and (current.name, current.data) == (name, kept):
            return current
        newest = LimitSet.objects.filter(name=name).aggregate(newest=Max("version"))["newest"] or 0
        LimitSet.objects.filter(is_current=True).update(is_current=False)
        limit_set = LimitSet(name=name, version=newest + 1, data=kept, created_by=person, is_current=True)
        limit_set.full_clean()
        limit_set.save()
    return limit_set


def _need_limits(data) -> tuple[str, dict]:
    if not isinstance(data, dict):
        raise Unprocessable("LIMITS-01")
    name = str(data.get("name") or "").strip()
    if not name:
        raise Unprocessable("LIMITS-NAME")
    plan = data.get("default_plan") or "house"
    if plan not in PLANS:
        raise Unprocessable("LIMITS-PLAN", plan=plan, known=", ".join(PLANS))
    try:
        limits_from_json(data)
    except UnusableLimits as trouble:
        raise Unprocessable(trouble.code, **trouble.facts) from trouble
    return name, {"default_plan": plan, "limits": data["limits"]}


def default_limits(*, person: Person | None = None) -> LimitSet:
    """The current limit set; on a new installation the documented default, published now."""
    current = LimitSet.objects.filter(is_current=True).first()
    return current or publish_limits(data=DEFAULT_LIMITS, person=person)


def _why(trouble: UnusableLimits) -> str:
    return filled(WORDS["unusable"][trouble.code], {key: str(value) for key, value in trouble.facts.items()})
