"""The one cut-off, refitted by what receivers found: where it lies, how surely, and whether it may be used at all.

Method: of cartons in which the receiver found no black spot, one in twenty may be flagged wrongly, so the cut-off is
the 95th percentile of their figures. Its interval is by bootstrap. How well the figure tells spotted from sound is
the area under the ROC curve with DeLong's interval: while its lower end is not above the floor, it goes quiet.
Does not hold: for findings entered after reading the advice, which is why the finding comes first.
Source: `scipy.stats.bootstrap` (percentile); for the area see measures.py. Twenty of each is common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.stats import bootstrap

from imaging.advice import CUT_OFF, LEAST_AUC
from imaging.measures import Auc, auc

LEAST = 20  # cartons with black spot and without, each
SOUND_BELOW = 95  # per cent
MOST_MOVED = 0.2  # from the shipped cut-off; further, and something else has changed


@dataclass(frozen=True)
class Learnt:
    """A refitted cut-off.

    Attributes
    ----------
    cut_off, low, high : float
        With its 95 % interval.
    auc : Auc
        Of the figure, spotted against sound.
    """

    cut_off: float
    low: float
    high: float
    auc: Auc

    @property
    def drift(self) -> float:
        """How far it lies from the shipped cut-off."""
        return self.cut_off - CUT_OFF

    @property
    def is_quiet(self) -> bool:
        """Whether no answer may be given: the figure tells too little here, or the cut-off has drifted too far."""
        return self.auc.low <= LEAST_AUC or abs(self.drift) > MOST_MOVED


def refit(sound: Sequence[float], spotted: Sequence[float]) -> Learnt | None:
    """Refit the cut-off.

    Parameters
    ----------
    sound, spotted : sequence of float
        Figures of cartons in which receivers found no black spot, and of those in which they found some.

    Returns
    -------
    Learnt or None
        None with fewer than twenty of either.
    """
    if min(len(sound), len(spotted)) < LEAST:
        return None
    area = auc(spotted, sound)
    if area is None:
        return None
    cut_off = float(np.percentile(sound, SOUND_BELOW))
    ends = bootstrap(
        (np.asarray(sound),), lambda figures, axis: np.percentile(figures, SOUND_BELOW, axis=axis), n_resamples=999,
        method="percentile", rng=np.random.default_rng(1),
    ).confidence_interval  # fmt: skip
    return Learnt(cut_off, float(ends.low), float(ends.high), area)
