"""The words of the worksheet. They stand apart from ``trade/data/wording_en.json`` so that no phone carries them."""
import json
from pathlib import Path
from typing import Any

TERMS: dict[str, Any] = json.loads((Path(__file__).parent / "words_en.json").read_text(encoding="utf-8"))


def term(group: str, key: str) -> str:
    """The words for a key of a group; the key itself when the file has none."""
    found: str = TERMS[group].get(key, key)
    return found
