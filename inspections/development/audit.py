"""Is everything there that devices were told is kept, exactly once? Run in the environment of the form asked about.

    python -m inspections.development.audit < receipts.json

``receipts.json`` is ``{"signed": [...], "photos": [...]}`` of all devices (``device.Receipts``). Prints one JSON line:
``{"rows": [[what, wanted, found], ...], "wrong": [sentence, ...]}``; all is well when each wanted is found.
"""
import json
import os
import sys
from collections import Counter
from pathlib import Path

#: Sentences of things that are wrong are listed up to so many.
MOST_TOLD = 20


def audited(receipts: dict) -> dict:
    """Compare receipts with rows and files."""
    from inspections.comparison.tallies import wrong_deliveries
    from inspections.evidence.checking import verify_chain
    from inspections.people.models import Site

    wrong: list[str] = []
    rows = [*_deliveries(receipts["signed"], wrong), *_photos(receipts, wrong), *_jobs(wrong)]
    mismatches = [str(one) for site in Site.objects.all() for one in verify_chain(site)]
    rows.append(["things not as sealed", 0, len(mismatches)])
    rows.append(["deliveries miscounted for the comparison", 0, len(list(wrong_deliveries()))])
    return {"rows": rows, "wrong": [*wrong, *mismatches][:MOST_TOLD]}


def _deliveries(signed: list[dict], wrong: list[str]) -> list[list]:
    from inspections.evidence.canonical import canonical_bytes, sha256_hex
    from inspections.evidence.models import Seal
    from inspections.records.models import Addendum, Delivery, PhotoUse
    from inspections.sync.models import Document, DocumentRevision

    kept = Delivery.objects.values_list("pk", "document")
    documents = {str(pk): sha256_hex(canonical_bytes(body)) for pk, body in kept}
    seals = Counter((kind, str(subject), sha256) for kind, subject, sha256 in
                    Seal.objects.values_list("kind", "subject_id", "sha256"))
    as_signed = [one for one in signed if documents.get(one["id"]) == one["sha256"]]
    sealed = [one for one in signed if seals.get(("delivery", one["id"], one["seal"])) == 1]
    put_away = [one for one in signed if seals.get(("addendum", one["addendum"], one["addendum_seal"])) == 1]
    for name, found in (("as signed", as_signed), ("sealed as told", sealed), ("put away as told", put_away)):
        wrong += [f"delivery {one['id']} is not {name}" for one in signed if one not in found]
    revisions = list(DocumentRevision.objects.values_list("document_id", "revision"))
    last = dict(Document.objects.values_list("pk", "revision"))
    return [
        ["inspections, each once", len(signed), Delivery.objects.count()],
        ["of them exactly as signed", len(signed), len(as_signed)],
        ["of them under the seal that the device was told", len(signed), len(sealed)],
        ["put-aways under the seal that the device was told", len(signed), len(put_away)],
        ["seals", 2 * len(signed), Seal.objects.count()],
        ["addenda", len(signed), Addendum.objects.count()],
        ["photos in their place", sum(len(one["photos"]) for one in signed), PhotoUse.objects.count()],
        ["revisions, none twice and none left out", sum(last.values()), len(set(revisions))],
        ["documents still open", 0, Document.objects.filter(state="open").count()],
    ]


def _photos(receipts: dict, wrong: list[str]) -> list[list]:
    from django.conf import settings

    from inspections.evidence.canonical import sha256_hex
    from inspections.records import storage
    from inspections.records.models import Photo

    named = set(receipts["photos"])
    whole = {sha256 for sha256 in named if _is(lambda sha256=sha256: sha256_hex(
        storage.read(storage.photo_name(sha256))) == sha256)}
    wrong += [f"photo {sha256} is gone or has other bytes" for sha256 in named - whole]
    return [
        ["photos, each once", len(named), Photo.objects.count()],
        ["of them with the right hash", len(named), len(whole)],
        ["part files left of photos that are stored", 0, len(list((Path(settings.DATA) / "uploads").glob("*.part")))],
    ]


def _jobs(wrong: list[str]) -> list[list]:
    from django.db.models import Count

    from inspections.records.models import Advisory, Job

    states = dict(Job.objects.values_list("state").annotate(Count("id")))
    parked = Job.objects.filter(state="parked").values_list("sentence", flat=True)
    wrong += [f"a job is parked: {sentence}" for sentence in parked]
    total = sum(states.values())
    return [
        ["jobs done", total, states.get("done", 0)],
        ["advice, once for each job", Job.objects.filter(kind="analyse_photo").count(), Advisory.objects.count()],
    ]


def _is(asked) -> bool:
    try:
        return asked()
    except OSError:
        return False


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
    import django

    django.setup()
    sys.stdout.write(json.dumps(audited(json.load(sys.stdin))) + "\n")
