"""The baselines of the photo advice as the desk reads them: documented, refined by group and site, and the drift."""
from inspections.people.models import Site
from inspections.records.baselines import MOST_DRIFT, Goods, Looks, SiteBaseline, accepted_looks, made_of
from inspections.records.lookups import newest_versions
from inspections.trade.species import BY_CODE


def looks(sites: list[Site]) -> dict:
    """Baselines of the goods in use at some sites.

    Parameters
    ----------
    sites : list of Site
        Those that the person may see; the group's own look is made from all sites of the group.

    Returns
    -------
    dict
        ``most_drift``, and ``rows``: one for each species, presentation and state, in the order of their
        names, with the look of the group as a whole and of each site.
    """
    rows = []
    for is_demo in sorted({site.is_demo for site in sites}):
        found = accepted_looks(Site.objects.filter(is_demo=is_demo), [])
        here = [site for site in sites if site.is_demo == is_demo]
        rows += [_row(goods, found.get(goods, {}), here) for goods in sorted(found.keys() | _in_use())]
    return {"most_drift": MOST_DRIFT, "rows": rows}


def _in_use() -> set[Goods]:
    return {Goods.of(version.data) for version in newest_versions()}


def _row(goods: Goods, found: Looks, sites: list[Site]) -> dict:
    group = made_of(goods, found, None)
    species = BY_CODE.get(goods.species_code)
    return {
        "species_code": goods.species_code, "species": species["name"] if species else goods.species_code,
        "presentation": goods.presentation, "state": goods.state,
        "documented": {"lab": list(group.documented.lab), "own_dark_share": group.documented.own_dark_share,
                       "version": group.documented.version},
        "group": _look(group),
        "sites": [{"id": str(site.pk), "name": site.name, **_look(made_of(goods, found, site.pk))} for site in sites],
    }


def _look(baseline: SiteBaseline) -> dict:
    return {
        **baseline.to_json(), "lab": list(baseline.refined.lab), "own_dark_share": baseline.refined.own_dark_share,
    }
