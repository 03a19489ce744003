"""Where darkening begins at which goods: the shipped cut-off, or one refitted by what receivers found.

Learnt from: laid-out samples of signed cartons whose pieces the receiver looked at for black spot, one figure a
carton (its darkest photo, by the current method, where the pieces stood clear), of real sites or of demo sites but
never of both. The receiver's finding is entered before the advice is shown (``sync/advisories.py``).
"""
from dataclasses import dataclass
from uuid import UUID

from imaging import advice
from imaging.cutoff import Learnt, refit
from inspections.records.models import Advisory, BlackSpot, PhotoUse

#: The newest say what is bought now, and the work stays small.
MOST_PHOTOS = 2000


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
class GoodsCutOff:
    """What advice on these goods goes by; ``learnt`` is None while there are too few findings."""

    goods: Goods
    sound: int
    spotted: int
    learnt: Learnt | None

    def to_json(self) -> dict:
        """As kept with an advice and read by the desk."""
        told = {**vars(self.goods), "sound": self.sound, "spotted": self.spotted, "shipped": advice.CUT_OFF}
        if self.learnt is None:
            return {**told, "from": "shipped", "cut_off": advice.CUT_OFF}
        one = self.learnt
        return {
            **told, "from": "shipped" if one.is_quiet else "findings", "is_quiet": one.is_quiet, "drift": one.drift,
            "cut_off": advice.CUT_OFF if one.is_quiet else one.cut_off, "refitted": one.cut_off, "low": one.low,
            "high": one.high, "auc": one.auc.area, "auc_low": one.auc.low, "auc_high": one.auc.high,
        }  # fmt: skip

    def context(self) -> dict:
        """What the method is told of it."""
        if self.learnt is None:
            return {}
        told = self.to_json()
        return {"cut_off": told["cut_off"], "may_answer": not self.learnt.is_quiet}


def cut_off_for(photo: str, told: dict) -> GoodsCutOff:
    """The cut-off for a photo, by its hash, from what was found up to now in the group that its site belongs to."""
    goods = Goods.of(told)
    is_demo = PhotoUse.objects.filter(photo_id=photo).values_list("site__is_demo", flat=True).first()
    if is_demo is None or not goods.species_code:
        return GoodsCutOff(goods, 0, 0, None)
    return cut_offs(is_demo, goods).get(goods, GoodsCutOff(goods, 0, 0, None))


def cut_offs(is_demo: bool, goods: Goods | None = None) -> dict[Goods, GoodsCutOff]:
    """The cut-offs of all goods with findings, or of some, over all sites of the group."""
    figures: dict[tuple[Goods, UUID], tuple[float, bool]] = {}
    for carton, found, figure, *told in _rows(is_demo, goods):
        key = Goods(*told), carton
        figures[key] = max(figures.get(key, (0.0, False))[0], figure), found != BlackSpot.NONE
    by_goods: dict[Goods, tuple[list[float], list[float]]] = {}
    for (kind, _), (figure, is_spotted) in figures.items():
        by_goods.setdefault(kind, ([], []))[is_spotted].append(figure)
    return {
        kind: GoodsCutOff(kind, len(sound), len(spotted), refit(sound, spotted))
        for kind, (sound, spotted) in by_goods.items()
    }


def _rows(is_demo: bool, goods: Goods | None):
    rows = Advisory.objects.filter(
        method_version=advice.METHOD_VERSION, purpose=advice.LAID_OUT, figure__isnull=False,
        photo__uses__purpose=advice.LAID_OUT, photo__uses__site__is_demo=is_demo,
        photo__uses__carton__black_spot__in=(BlackSpot.NONE, BlackSpot.WITHIN, BlackSpot.BEYOND),
        **(vars(goods) if goods else {}),
    ).order_by("-created_at", "-id")
    return rows.values_list(
        "photo__uses__carton_id", "photo__uses__carton__black_spot", "figure", "species_code", "presentation", "state"
    )[:MOST_PHOTOS]
