"""What sound goods look like at a site: the documented look, refined by photos of cartons that were accepted.

Taught by: photos with the reference card, of opened cartons that were accepted, not found defective, and on
which the receiver counted pieces with black spot and found none. One photo a carton (the newest), read by the
method that is current, of real sites or of demo sites but never of both. How far they move it is
``imaging.baseline``'s business: a site's photos pull the group's look, the group's pull the documented one.

Guard: photos that move a baseline further than another species may lie off, or that would count much more of
the surface as its own darkness, teach nothing. Then the documented look is used and the managers are told.
Both bounds are common practice, no source.
"""
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, fields
from uuid import UUID

from django.db.models import QuerySet

from imaging import advice
from imaging.baseline import AcceptedLook, Baseline, documented_baseline, drift, refined_baseline
from inspections.people.models import Site
from inspections.records.advising import PRAWN_PURPOSES
from inspections.records.models import Advisory, BlackSpot, Decision, PhotoUse

#: CIEDE2000 between documented and refined look; shell-on raw species differ by about 10 and more.
MOST_DRIFT = 8.0
#: Share of the surface; "darkening seen" begins at 0.05, so the guard stays well below it.
MOST_OWN_DARK_RISE = 0.02
#: The newest photos say what is bought now, and the work stays small: 100 pull by 0.89, more add little.
MOST_PHOTOS_OF_A_SITE = 100
_MOST_ROWS = 2000
ACCEPTED = (Decision.ACCEPT, Decision.ALLOWANCE)


@dataclass(frozen=True, order=True)
class Goods:
    """What looks alike: species, presentation, and raw or cooked; empty when it was not told."""

    species_code: str
    presentation: str
    state: str

    @classmethod
    def of(cls, told: dict) -> "Goods":
        """From a specification's data or the context of an advice."""
        return cls(*(told.get(name) or "" for name in ("species_code", "presentation", "state")))


@dataclass(frozen=True)
class SiteBaseline:
    """The look that advice at one site is given by, and where it came from.

    Attributes
    ----------
    goods : Goods
    documented, refined : Baseline
        As shipped, and as the photos would have it.
    site_photos, group_photos : int
        Photos that taught it: of this site, and of the others.
    drift : float
        CIEDE2000 from documented to refined; 2 is just seen side by side.
    """

    goods: Goods
    documented: Baseline
    refined: Baseline
    site_photos: int
    group_photos: int
    drift: float

    @property
    def is_too_far(self) -> bool:
        rise = self.refined.own_dark_share - self.documented.own_dark_share
        return self.drift > MOST_DRIFT or rise > MOST_OWN_DARK_RISE

    @property
    def used(self) -> Baseline:
        """What advice is given by: the documented one where the photos went too far."""
        return self.documented if self.is_too_far else self.refined

    @property
    def origin(self) -> str:
        """``documented``, ``group`` (only other sites' photos) or ``site``."""
        if self.is_too_far or not self.site_photos + self.group_photos:
            return "documented"
        return "site" if self.site_photos else "group"

    def to_json(self) -> dict:
        """As kept with an advice."""
        return {
            "version": self.used.version, "from": self.origin, "site_photos": self.site_photos,
            "group_photos": self.group_photos, "drift": self.drift, "is_too_far": self.is_too_far,
        }


Looks = dict[UUID, list[AcceptedLook]]


def baseline_at(site: Site | None, goods: Goods) -> SiteBaseline:
    """The baseline of these goods at a site, from what was accepted up to now.

    Parameters
    ----------
    site : Site or None
        None: only the documented look can be said.
    """
    if site is None or not goods.species_code:
        return made_of(goods, {}, None)
    sites = Site.objects.filter(is_demo=site.is_demo)
    return made_of(goods, accepted_looks(sites, [goods]).get(goods, {}), site.pk)


def made_of(goods: Goods, looks: Looks, site_id: UUID | None) -> SiteBaseline:
    """The baseline of a site from the group's looks; ``site_id`` None asks for the group as a whole."""
    documented = documented_baseline(goods.species_code, goods.presentation, goods.state)
    own = looks.get(site_id, [])
    others = [look for key, found in sorted(looks.items()) if key != site_id for look in found]
    refined = refined_baseline(documented, others, own)
    return SiteBaseline(goods, documented, refined, len(own), len(others), drift(documented, refined))


def accepted_looks(sites: QuerySet[Site], wanted: Sequence[Goods]) -> dict[Goods, Looks]:
    """What photos of accepted cartons showed, by goods and site, newest first.

    Parameters
    ----------
    sites : QuerySet of Site
    wanted : sequence of Goods
        An empty one asks for all goods.
    """
    chosen = _newest_of_each_carton(_rows(sites, wanted))
    ids = [advisory_id for by_site in chosen.values() for found in by_site.values() for advisory_id in found]
    # Read apart from the choosing: most looks are older than those that count.
    looks = dict(Advisory.objects.filter(pk__in=ids).values_list("pk", "look"))
    return {
        goods: {site_id: [look_from_json(looks[one]) for one in found] for site_id, found in by_site.items()}
        for goods, by_site in chosen.items()
    }


def _newest_of_each_carton(rows: Iterable[tuple]) -> dict[Goods, dict[UUID, list[UUID]]]:
    """Ids of the advice that counts, by goods and site."""
    chosen: dict[Goods, dict[UUID, list[UUID]]] = {}
    seen = set()
    for site_id, carton_id, advisory_id, *goods in rows:
        here = chosen.setdefault(Goods(*goods), {}).setdefault(site_id, [])
        if carton_id not in seen and len(here) < MOST_PHOTOS_OF_A_SITE:
            seen.add(carton_id)
            here.append(advisory_id)
    return chosen


def _rows(sites: QuerySet[Site], wanted: Sequence[Goods]) -> Iterable[tuple]:
    of_one = wanted[0] if len(wanted) == 1 else None
    told = {f"photo__advisories__{name}": value for name, value in asdict(of_one).items()} if of_one else {}
    uses = PhotoUse.objects.filter(
        site__in=sites, purpose__in=PRAWN_PURPOSES, carton__is_defective=False, carton__line__decided__in=ACCEPTED,
        carton__black_spot=BlackSpot.NONE, photo__advisories__method_version=advice.METHOD_VERSION,
        photo__advisories__look__isnull=False, **told,
    ).order_by("-photo__advisories__created_at", "-photo__advisories__id")
    rows = uses.values_list("site_id", "carton_id", "photo__advisories__id",
                            *(f"photo__advisories__{field.name}" for field in fields(Goods)))
    return rows[:_MOST_ROWS] if of_one else rows.iterator(chunk_size=500)


def look_from_json(kept: dict) -> AcceptedLook:
    """Back from how it was kept."""
    return AcceptedLook(tuple(kept["lightness_counts"]), kept["a"], kept["b"], kept["dark_share"])
