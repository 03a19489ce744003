"""Whether photo advice is on for a specification, and who set it so: told by its versions, newest first."""
from itertools import takewhile

from inspections.records.models import Specification, SpecificationVersion
from inspections.records.selectors import versions_in_use


def advice_switches() -> list[dict]:
    """Whether photo advice is on, for every specification in use, by code."""
    return [_advice_switch(versions) for versions in versions_in_use()]


def advice_switch(specification: Specification) -> dict:
    """Whether photo advice is on for a specification, and who set it so, when, by which version."""
    return _advice_switch(list(specification.versions.select_related("specification", "created_by")))


def _advice_switch(versions: list[SpecificationVersion]) -> dict:
    is_on = _wants_advice(versions[0])
    began = list(takewhile(lambda version: _wants_advice(version) == is_on, versions))[-1]
    return {
        "specification_id": str(began.specification_id),
        "code": began.specification.code,
        "name": began.specification.name,
        "version": versions[0].version,
        "is_on": is_on,
        "since_version": began.version,
        "by": str(began.created_by) if began.created_by else None,
        "at": began.created_at.isoformat(),
    }


def _wants_advice(version: SpecificationVersion) -> bool:
    return version.data.get("advisory", True)
