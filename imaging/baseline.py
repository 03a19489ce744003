"""What sound prawns of this kind look like: documented defaults, refined from accepted cartons.

Method: one documented colour (middle and spread in Lab), pattern and own dark share for each species,
presentation and state. Photos of accepted cartons move it: a group's photos pull the documented
value, a site's photos pull the group's, each by n / (n + 12), so that a site with few photos borrows
from its group. Drift is the CIEDE2000 between what a baseline says now and what it started from.
Does not hold: peeled meat looks alike across species (CV-7-33); one species may be pale or dark by
its pond (CV-6-45), which is what the refining is for.
Sources: field marks CV-6-40 to CV-6-50; shrinkage as in Efron and Morris (1975), with a fixed weight.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

import numpy as np

from imaging.colour import delta_e_2000

SHELL_ON = ("HOSO", "HLSO", "EZP")
HEAD_ON = ("HOSO",)
TAIL_ON = ("PTO", "PDTO", "BTTY")
BORROWED = 12.0  # photos that the level above is worth
_DATA = Path(__file__).parent / "baselines" / "documented.json"


@dataclass(frozen=True)
class Baseline:
    """The look of sound prawns.

    Attributes
    ----------
    lab, spread : tuple of 3 floats
        Middle and standard deviation over the surface, L*, a*, b*, D65.
    pattern : str
        plain, speckled, spotted, barred, banded or red.
    own_dark_share : float
        Share that a sound one shows by itself (eyes, folds, shade), 0 to 1.
    version : str
    """

    lab: tuple[float, float, float]
    spread: tuple[float, float, float]
    pattern: str
    own_dark_share: float
    version: str

    @property
    def chroma(self) -> float:
        """C*ab of the middle."""
        return float(np.hypot(*self.lab[1:]))


@dataclass(frozen=True)
class AcceptedLook:
    """What one photo of an accepted carton showed.

    Attributes
    ----------
    lightness_counts : tuple of int
        Pixels of prawn surface in 50 bins of L*, 0 to 100.
    a, b : float
        Median a* and b* of the prawn surface.
    dark_share : float
        As measured before the own share is taken off, 0 to 1.
    """

    lightness_counts: tuple[int, ...]
    a: float
    b: float
    dark_share: float


@lru_cache(maxsize=1)
def _documented() -> dict:
    return json.loads(_DATA.read_text("utf-8"))


def documented_baseline(species_code: str, presentation: str, state: str) -> Baseline:
    """The shipped default for what the specification says.

    Parameters
    ----------
    species_code : str
        FAO code; an unknown one gets a wide look of its own.
    presentation : str
        HOSO, HLSO, EZP, PTO, PDTO, PUD, PD, BTTY or PPV.
    state : str
        raw, part_cooked or cooked.

    Returns
    -------
    Baseline
    """
    data = _documented()
    look = _look(data, species_code, presentation, state)
    pattern = data["patterns"][look["pattern"]]
    return Baseline(tuple(look["lab"]), tuple(look["spread"]), look["pattern"], **pattern, version=data["version"])


def _look(data: dict, species_code: str, presentation: str, state: str) -> dict:
    shell_on = presentation in SHELL_ON
    if state == "cooked":
        return data["looks"]["cooked_shell_on" if shell_on else "cooked_peeled"]
    if state == "part_cooked":
        return data["looks"]["part_cooked"]
    species = data["raw_shell_on"].get(species_code)
    if species is None or shell_on:
        return species or data["looks"]["unknown"]
    peeled = data["looks"]["raw_peeled_red" if species["pattern"] == "red" else "raw_peeled"]
    # The fan that is left on a peeled tail keeps the bands of its kind.
    return {**peeled, "pattern": "banded"} if presentation in TAIL_ON and species["pattern"] == "banded" else peeled


def refined_baseline(
    documented: Baseline, group_looks: Sequence[AcceptedLook], site_looks: Sequence[AcceptedLook]
) -> Baseline:
    """A site's own baseline from photos of cartons that were accepted.

    Parameters
    ----------
    documented : Baseline
    group_looks : sequence of AcceptedLook
        From the group's other sites; may be empty.
    site_looks : sequence of AcceptedLook
        From this site; may be empty.

    Returns
    -------
    Baseline
        The documented one, unchanged, when both are empty.
    """
    looks = [*group_looks, *site_looks]
    if not looks:
        return documented
    refined = _pulled(_pulled(documented, group_looks), site_looks)
    mark = hashlib.sha256(json.dumps([vars(look) for look in looks]).encode()).hexdigest()[:8]
    return replace(refined, version=f"{documented.version}+{len(site_looks)}/{len(looks)}-{mark}")


def _pulled(start: Baseline, looks: Sequence[AcceptedLook]) -> Baseline:
    if not looks:
        return start
    weight = len(looks) / (len(looks) + BORROWED)
    seen = np.array([[_median_lightness(look), look.a, look.b] for look in looks])
    lab = (1 - weight) * np.array(start.lab) + weight * np.median(seen, axis=0)
    # Accepted cartons still hold a few bad ones: the lower quartile says what sound ones show.
    dark = float(np.percentile([look.dark_share for look in looks], 25))
    own = min((1 - weight) * start.own_dark_share + weight * dark, 0.05)
    return replace(start, lab=tuple(float(x) for x in lab), own_dark_share=own)


def _median_lightness(look: AcceptedLook) -> float:
    counts = np.cumsum(look.lightness_counts)
    if counts[-1] == 0:
        raise ValueError("an accepted look without any prawn surface")
    width = 100 / len(counts)
    return (int(np.searchsorted(counts, counts[-1] / 2)) + 0.5) * width


def drift(start: Baseline, now: Baseline) -> float:
    """How far a baseline has moved, CIEDE2000 between the two middles; 2 is just seen side by side."""
    return float(delta_e_2000(np.array(start.lab), np.array(now.lab)))
