"""Where does a number come from, and how surely is it known?

Every limit, table and formula that the judgements use carries a ``Basis``. ``known`` says
whether the passage was read, is written from memory, is trade habit, or was computed; a
person can then see which numbers to look up before they lean on them.
"""

import json
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, Literal

Known = Literal["read", "from_memory", "common_practice", "computed"]
KNOWN: tuple[str, ...] = ("read", "from_memory", "common_practice", "computed")
_DATA = Path(__file__).parent / "data"


@dataclass(frozen=True, slots=True)
class Basis:
    """The source of a number.

    Attributes
    ----------
    source : str
        Document and clause, e.g. ``"CXS 92-1981 §7.4"``.
    known : {"read", "from_memory", "common_practice", "computed"}
        How surely the passage is known.
    cv : str
        Row of the list of check values, e.g. ``"CV-1-26"``.
    words : str
        One plain line for the screen.
    """

    source: str
    known: Known
    cv: str
    words: str

    def to_json(self) -> dict[str, str]:
        """The four fields as a JSON object."""
        return asdict(self)


def load_table(name: str) -> Any:
    """A published table kept as data beside this module, e.g. ``load_table("plans")``."""
    return json.loads((_DATA / f"{name}.json").read_text(encoding="utf-8"))
