"""A claim's thread as both sides read it: each entry out of its sealed bytes, oldest first."""
from datetime import datetime
from decimal import Decimal

from inspections.claims import standing as stands
from inspections.claims.amounts import GROUNDS, ground_name
from inspections.claims.currencies import written
from inspections.claims.models import Claim
from inspections.claims.when import site_moment
from inspections.errors import NotFound
from inspections.evidence.logger_page import drawings_of
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import content_of
from inspections.messages import message
from inspections.records.models import ClaimEntry


def thread_of(claim: Claim) -> list[dict]:
    """Entries with what they are called, their amount in words, their files and their seal."""
    ids = ClaimEntry.objects.filter(claim_id=claim.pk).values_list("pk", flat=True)
    seals = Seal.objects.filter(kind=SealKind.CLAIM, subject_id__in=list(ids)).order_by("number")
    zone, items = claim.delivery.site.timezone, items_told(claim)
    return [_entry(content_of(seal)["entry"], seal, zone, items, claim.claimed) for seal in seals]


def items_told(claim: Claim) -> list[dict]:
    """Items with the name of their ground and their amount in words."""
    return [
        {**one, "name": ground_name(one["ground"]), "inputs": list(GROUNDS[one["ground"]]),
         "amount_words": "" if one["amount"] is None else written(Decimal(one["amount"]), claim.currency)}
        for one in claim.items
    ]


def file_in(claim: Claim, sha256: str) -> dict:
    """A file of the claim's entries as it was sealed.

    Raises
    ------
    NotFound
    """
    for document in ClaimEntry.objects.filter(claim_id=claim.pk).values_list("document", flat=True):
        for file in document["files"]:
            if file["sha256"] == sha256:
                return file
    raise NotFound()


def _entry(entry: dict, seal: Seal, zone: str, items: list[dict], claimed: Decimal | None) -> dict:
    amount, side = entry["amount"], entry["side"]
    return {
        **entry, "what": stands.kind_words(entry["kind"]), "side_words": message(f"claims-side-{side}"),
        "when": site_moment(datetime.fromisoformat(entry["at"]), zone),
        "is_above": entry["kind"] == "offer" and claimed is not None and Decimal(amount) > claimed,
        "amount_words": "" if amount is None else written(Decimal(amount), entry["currency"]),
        "points": [{**point, "name": items[point["item"]]["name"]} for point in entry["points"]
                   if 0 <= point["item"] < len(items)],
        "files": [_file(file) for file in entry["files"]],
        "seal": {"number": seal.number, "sha256": seal.sha256},
    }


def _file(file: dict) -> dict:
    """A file without the whole of its reading: the summary in words, and its drawing."""
    reading = file.get("reading")
    told = {name: file[name] for name in ("name", "sha256", "bytes", "kind", "type")}
    return told if reading is None else {**told, "summary": reading["summary"], "drawings": drawings_of(reading)}
