"""Stored documents, read so that one that cannot be read hurts itself only: what is odd in it counts as absent."""
from inspections.records.judging import is_id


def head(body) -> dict:
    """The document, or nothing where what is stored is none."""
    return body if isinstance(body, dict) else {}


def is_filed(body) -> bool:
    """Whether it can be told whose it is."""
    return is_id(head(body).get("id")) and is_id(head(body).get("site_id"))


def entries(body, name: str) -> list[dict]:
    """The lines, or the photos, of a document."""
    found = head(body).get(name)
    return [entry for entry in found if isinstance(entry, dict)] if isinstance(found, list) else []


def text(body, name: str) -> str:
    """A text at the head of a document."""
    found = head(body).get(name)
    return found if isinstance(found, str) else ""


def ids(parts: list[dict], name: str) -> set[str]:
    """Every id that stands under a name in some parts."""
    return {part[name] for part in parts if is_id(part.get(name))}
