"""The cut-offs of the photo advice as the desk reads them: shipped or refitted, with interval, drift and floor."""
from imaging.advice import LEAST_AUC, measured
from imaging.cutoff import LEAST, MOST_MOVED
from inspections.people.models import Site
from inspections.records.cutoffs import Goods, GoodsCutOff, cut_offs
from inspections.records.selectors import newest_versions
from inspections.trade.species import BY_CODE


def learnt(sites: list[Site]) -> dict:
    """Cut-offs of the goods in use or with findings, and what the method was measured to be worth.

    Returns
    -------
    dict
        ``least`` cartons of each kind, ``floor`` of the area, ``most_moved``; ``kept_aside`` by state, empty until
        known; ``rows``: one for each species, presentation and state.
    """
    in_use = {Goods.of(version.data) for version in newest_versions()}
    rows = []
    for is_demo in sorted({site.is_demo for site in sites}):
        found = cut_offs(is_demo)
        rows += [_row(found.get(goods) or GoodsCutOff(goods, 0, 0, None)) for goods in sorted(found.keys() | in_use)]
    return {"least": LEAST, "floor": LEAST_AUC, "most_moved": MOST_MOVED, "kept_aside": measured()["kept_aside"],
            "rows": rows}


def _row(one: GoodsCutOff) -> dict:
    species = BY_CODE.get(one.goods.species_code)
    return {**one.to_json(), "species": species["name"] if species else one.goods.species_code}
