"""Who is in the tests: two sites, the people of each, the group, and somebody with no site at all."""
from dataclasses import dataclass

from inspections.people.models import Person, Site
from inspections.records.models import LimitSet, SpecificationVersion, Supplier
from tests.factories import a_person, a_site, a_specification, a_supplier, current_limits


@dataclass(frozen=True)
class Cast:
    """``quay`` and ``bend`` are sites; the first receiver and the manager are of the quay."""

    quay: Site
    bend: Site
    receiver: Person
    other_receiver: Person
    manager: Person
    other_manager: Person
    group: Person
    administrator: Person
    stranger: Person
    supplier: Supplier
    version: SpecificationVersion
    limits: LimitSet

    @property
    def people(self) -> dict[str, Person]:
        """Everybody by the name of their part."""
        return {
            name: getattr(self, name)
            for name in ("receiver", "other_receiver", "manager", "other_manager", "group", "administrator", "stranger")
        }


def make_cast() -> Cast:
    """Write the cast; nobody has a password, tests sign in by force."""
    quay, bend = a_site("QUAY"), a_site("BEND", timezone="Australia/Brisbane", market="ANZ")
    return Cast(
        quay=quay,
        bend=bend,
        receiver=a_person("receiver", "receiver", quay),
        other_receiver=a_person("other", "receiver", bend),
        manager=a_person("manager", "site_manager", quay),
        other_manager=a_person("elsewhere", "site_manager", bend),
        group=a_person("group", "group_operations"),
        administrator=a_person("admin", "administrator"),
        stranger=a_person("stranger", "receiver"),
        supplier=a_supplier(),
        version=a_specification(),
        limits=current_limits(),
    )
