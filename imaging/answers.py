"""The three answers about a photo, their reasons, and how they are kept.

None of them has a truth value, so `if answer:` is an error and not a bug; match on the type.
"""

from __future__ import annotations

from dataclasses import dataclass

from imaging.sizing import PieceLength

REASONS = {
    "card_used": "The reference card gave white, brightness and scale.",
    "card_unusable": (
        "A reference card was seen but its grey steps could not be read, as under glare. It was not used."
    ),
    "no_card": (
        "No reference card in the photo: white and brightness are estimated from what lies around, "
        "so the range is wide."
    ),
    "as_the_camera_made_it": (
        "Nothing pale in the photo to take white from: colours are as the phone made them, so the range is wide."
    ),
    "share": "About {share} of the prawn surface looked dark and colourless (between {low} and {high}).",
    "spots": "The dark places are spots.",
    "patches": "The dark places are wide patches.",
    "not_product": "This photo is not of the prawns themselves, so it was not looked at for darkening.",
    "no_prawns": "Prawn could not be told from the rest of the photo.",
    "unsure_prawns": "What was found may not be prawn: its colour and surface fit this product poorly.",
    "no_colour": "The photo has no colour in it.",
    "range_too_wide": "Too much doubt is left: the share could lie either side of the line.",
    "veiled": (
        "Ice or frost lies over the prawns like a veil, so black places would look grey. "
        "Wipe a place clear and take it again."
    ),
    "through_ice": (
        "Ice or frost lies over the prawns and takes part of the black away. Wipe a place clear if you want to be sure."
    ),
    "few_places": (
        "The dark lies in few places, which may be something else in the photo, as a glove or a shadow. "
        "Take it away, lay the reference card beside the prawns and take the photo again."
    ),
    "hard_light": (
        "The light is hard: shadows end as sharply as black spot does, so one can't be told from the other. "
        "Turn so that light comes from all sides, switch the flash off, and take the photo again."
    ),
    "own_pattern": "This kind is naturally dark or banded: only black well below its own colour was counted.",
}


@dataclass(frozen=True)
class Reason:
    """One reason, as a code and a sentence."""

    code: str
    text: str


@dataclass(frozen=True, kw_only=True)
class _Answer:
    reasons: tuple[Reason, ...]
    card_used: bool
    method_version: str
    baseline_version: str
    timing_ms: float
    length: PieceLength | None = None

    def __bool__(self) -> bool:
        raise TypeError("an answer about a photo is not true or false: match on its type")

    def _json(self, answer: str, share: float | None, low: float | None, high: float | None, where: tuple) -> dict:
        return {
            "answer": answer,
            "share": share,
            "share_low": low,
            "share_high": high,
            "where": list(where),
            "reasons": [{"code": r.code, "text": r.text} for r in self.reasons],
            "card_used": self.card_used,
            "method_version": self.method_version,
            "baseline_version": self.baseline_version,
            "length_mm": None if self.length is None else self.length.to_json(),
            "timing_ms": self.timing_ms,
        }


@dataclass(frozen=True, kw_only=True)
class DarkeningSeen(_Answer):
    """Darkening was seen: shares of the prawn surface, 0 to 1; `where` of head, spots, patches."""

    share: float
    share_low: float
    share_high: float
    where: tuple[str, ...]

    def to_json(self) -> dict:
        """As kept and sent."""
        return self._json("darkening_seen", self.share, self.share_low, self.share_high, self.where)


@dataclass(frozen=True, kw_only=True)
class NoneSeen(_Answer):
    """No darkening was seen; the small share that was measured and its range, 0 to 1."""

    share: float
    share_low: float
    share_high: float

    def to_json(self) -> dict:
        """As kept and sent."""
        return self._json("none_seen", self.share, self.share_low, self.share_high, ())


@dataclass(frozen=True, kw_only=True)
class CannotTell(_Answer):
    """No answer, and why; shares only where they could be measured."""

    share: float | None = None
    share_low: float | None = None
    share_high: float | None = None

    def to_json(self) -> dict:
        """As kept and sent."""
        return self._json("cannot_tell", self.share, self.share_low, self.share_high, ())


Advice = DarkeningSeen | NoneSeen | CannotTell
