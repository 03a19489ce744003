"""From rows to the judgement and back: loads what a document was judged by, and compares two judgements."""
from dataclasses import dataclass
from uuid import UUID

from inspections.errors import Unprocessable
from inspections.records.models import LimitSet, SpecificationVersion
from inspections.trade.facts import DeliveryFacts, facts_from_document
from inspections.trade.verdict import judge_facts

#: A difference lists at most so many places; the first ones show where the two part.
MOST_DIFFERENCES = 100


@dataclass(frozen=True)
class Judged:
    """A judgement with all that it was made of: what was read, by which limits, against which specifications."""

    judgement: dict
    facts: DeliveryFacts
    limits: LimitSet
    versions: dict[str, SpecificationVersion]


def judge(document: dict) -> dict:
    """The server's own judgement of a document, by the versions that the document names.

    Raises
    ------
    Unprocessable
        SPECIFICATION-UNKNOWN, LIMITS-UNKNOWN.
    """
    return judged(document).judgement


def judged(document: dict) -> Judged:
    """The judgement and what it was made of; raises as ``judge``."""
    limits, versions, facts = limit_set_of(document), versions_of(document), facts_from_document(document)
    specifications = [version.to_json() for version in versions.values()]
    return Judged(judge_facts(facts, specifications, limits.to_json()), facts, limits, versions)


def limit_set_of(document: dict) -> LimitSet:
    """The limit set that a document was judged by.

    Raises
    ------
    Unprocessable
        LIMITS-UNKNOWN.
    """
    found = _by_ids(LimitSet.objects, [document.get("limits_id")])
    if not found:
        raise Unprocessable("LIMITS-UNKNOWN")
    return next(iter(found.values()))


def versions_of(document: dict) -> dict[str, SpecificationVersion]:
    """The specification versions of a document's lines, by id.

    Raises
    ------
    Unprocessable
        SPECIFICATION-UNKNOWN, with the number of the line.
    """
    wanted = [str(line.get("specification_id")) for line in document["lines"]]
    found = _by_ids(SpecificationVersion.objects.select_related("specification"), wanted)
    for number, wanted_id in enumerate(wanted, start=1):
        if wanted_id not in found:
            raise Unprocessable("SPECIFICATION-UNKNOWN", line=number)
    return found


def difference(document: dict, judgement: dict) -> list[dict] | None:
    """Where the phone's judgement, kept in the document, is not the server's.

    Returns
    -------
    list of dict or None
        ``{"path", "phone", "server"}`` for each place; None when both agree. A line on which the phone
        kept no suggestion counts as a difference: it must not pass for agreement.
    """
    found: list[dict] = []
    for number, line in enumerate(document["lines"]):
        _compare(line.get("suggested"), judgement["lines"][number], f"lines[{number}].suggested", found)
    wording = (document.get("wording") or {}).get("text")
    if wording is not None:
        _compare(wording, judgement["wording"], "wording.text", found)
    return found[:MOST_DIFFERENCES] or None


def _compare(phone, server, path: str, found: list[dict]) -> None:
    if isinstance(phone, dict) and isinstance(server, dict):
        for key in sorted({*phone, *server}):
            _compare(phone.get(key), server.get(key), f"{path}.{key}", found)
    elif isinstance(phone, list) and isinstance(server, list) and len(phone) == len(server):
        for index, (one, other) in enumerate(zip(phone, server, strict=True)):
            _compare(one, other, f"{path}[{index}]", found)
    elif phone != server:
        found.append({"path": path, "phone": phone, "server": server})


def _by_ids(rows, ids: list) -> dict:
    """Rows by id as text; ids that are no UUIDs find nothing."""
    return {str(row.pk): row for row in rows.filter(pk__in=[one for one in ids if is_id(one)])}


def is_id(value) -> bool:
    """Whether a value is the text of a UUID."""
    try:
        return isinstance(value, str) and str(UUID(value)) == value.lower()
    except ValueError:
        return False
