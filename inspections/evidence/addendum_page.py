"""What was added after signing, as a supplier reads it: cartons put away, refused goods fetched, entries corrected."""
from typing import Any
from zoneinfo import ZoneInfo

from inspections.evidence.entered import entered
from inspections.evidence.models import Seal
from inspections.evidence.seals import content_of
from inspections.records.services.signable import moment
from inspections.trade.freezer import judge_freezer
from inspections.trade.limits import limits_from_json
from inspections.trade.quantities import Unusable, to_celsius
from inspections.trade.wording import WORDS


def moment_words(text: str | None, zone: ZoneInfo) -> str:
    """A moment on the site's clock: ``25 November 2026, 06:10``."""
    found = moment(text)
    if found is None:
        # Not a moment, by a phone that wrote none: shown as it stands in the record.
        return text or ""
    try:
        at = found.astimezone(zone)
    except OverflowError:
        return text or ""
    return f"{at.day} {at:%B %Y, %H:%M}"


TITLES = {"put_away": "Put-away", "correction": "Correction", "set_apart": "Refused and held goods",
          "thawed": "Found on thawing"}
FAULTS = WORDS["thawed"]["faults"]


def addendum_page(seal: Seal, record: dict[str, Any], zone: ZoneInfo) -> dict[str, Any]:
    """An addendum in words: what was put away where, what stands apart or was fetched, or what was corrected."""
    content = content_of(seal)
    added = content["addendum"]
    names = {line["id"]: number for number, line in enumerate(record["document"]["lines"], start=1)}
    body = added["body"]
    return {
        "kind": added["kind"], "title": TITLES[added["kind"]],
        "at": moment_words(added["at"], zone), "by": (added.get("person") or {}).get("name") or "",
        "text": body.get("text") or "", "reason": body.get("reason") or "",
        "air": _air(body.get("freezer_air"), record["limits"]),
        "cartons": [_put(entry, names, content["freezers"]) for entry in body.get("cartons") or []
                    if added["kind"] == "put_away"],
        "apart": apart_words(body, zone) if added["kind"] == "set_apart" else [],
        "thawed": thawed_words(body, names, zone) if added["kind"] == "thawed" else "", "note": body.get("note") or "",
        "photos": [entry["sha256"] for entry in content.get("photos", ()) if entry["shared_sha256"]],
        "seal": seal,
    }


def apart_words(body: dict[str, Any], zone: ZoneInfo) -> list[dict[str, Any]]:
    """Line id and sentence of each entry about goods that were refused or held."""
    at = moment_words(body["happened_at"], zone)
    how = f"kept apart, as of {at}: {body['where']}"
    if body["event"] == "fetched":
        how = f"fetched by {body['by']} on {at}" + (f" ({body['where']})" if body["where"] else "")
    elif body["event"] != "stand":
        how = f"{body['event']} by {body['by']} on {at}: {body['reason']}"
    return [{"line_id": entry["line_id"], "part": entry["part"],
             "text": f"{entry['count']} {entry['part']} {'carton' if entry['count'] == 1 else 'cartons'} {how}."}
            for entry in body["cartons"]]


def thawed_words(body: dict[str, Any], names: dict[str, int], zone: ZoneInfo) -> str:
    """What was found in which lot, how much of it, and when it was thawed, in a sentence."""
    lot = f"lot {body['lot']}, " if body["lot"] else ""
    found, how_many = FAULTS[body["fault"]], WORDS["thawed"]["how_many"][body["how_many"]]
    at = moment_words(body["thawed_at"], zone)
    return f"Line {names.get(body['line_id'])}, {lot}thawed on {at}: {found.lower()}, {how_many.lower()}."


def _air(reading: dict[str, Any] | None, limits: dict[str, Any]) -> str:
    """The freezer's air as it was typed, and what it means; "" where it was not read or cannot be."""
    try:
        return judge_freezer(to_celsius(reading), limits_from_json(limits))["text"] if reading else ""
    except Unusable:
        return f"Freezer air {entered(reading)}."


def _put(entry: dict[str, Any], names: dict[str, Any], freezers: dict[str, Any]) -> dict[str, Any]:
    words: dict[Any, str] = {True: "liner closed", False: "liner open"}
    liner = words.get(entry.get("liner_closed"), "liner not noted")
    return {
        "line": names.get(entry.get("line_id", "")), "count": entry.get("count"),
        "freezer": freezers.get(entry.get("freezer_id", ""), "a freezer that is not on the list"),
        "position": entry.get("position") or "", "liner": liner, "minutes": _minutes(entry),
    }


def _minutes(entry: dict[str, Any]) -> str:
    out_at, in_at = moment(entry.get("out_at")), moment(entry.get("in_at"))
    if out_at is None or in_at is None:
        return "time out of the cold not noted"
    whole = round((in_at - out_at).total_seconds() / 60)
    return f"{whole} {'minute' if whole == 1 else 'minutes'} out of the cold"


