"""Another sealing key: earlier seals stand, the old key hands over in the chain, and seals nothing after that."""
import io
import json
import subprocess

import pytest
from django.core.management import CommandError, call_command
from django.db import transaction

from inspections.evidence import keys
from inspections.evidence.bundle import write_bundle
from inspections.evidence.checking import verify_chain
from inspections.evidence.models import Seal, SealingKey
from inspections.evidence.rotation import rotate_key
from inspections.evidence.seals import content_of, seal
from inspections.people import trail
from inspections.people.models import Deed
from inspections.records.models import Delivery
from tests.inspections.receiving import decide, document
from tests.inspections.tamper import behind


@pytest.fixture
def rotated(kitchen, phone):
    """A delivery sealed with one key, the change, and a delivery sealed with the next."""
    phone.sign(decide(document(kitchen, docket="DN-1")), "key-before-1")
    changed = rotate_key("the yearly change")
    phone.sign(decide(document(kitchen, docket="DN-2")), "key-after-1")
    return changed


def what(kitchen) -> list[str]:
    return [mismatch.what for mismatch in verify_chain(kitchen.site)]


def test_seals_of_both_keys_stand_and_the_change_is_in_the_chain(rotated, kitchen):
    before, change, after = Seal.objects.order_by("number")
    assert what(kitchen) == []
    assert (before.public_key_id, after.public_key_id) == (rotated.old_key_id, rotated.new_key_id)
    assert (change.kind, change.public_key_id, after.previous_sha256) == ("key", rotated.old_key_id, change.sha256)
    told = content_of(change)
    assert (told["why"], told["old_key_id"], told["new_key_id"]) == ("the yearly change", *two(rotated))
    assert rotated.sites == 1


def two(rotated) -> tuple[str, str]:
    return rotated.old_key_id, rotated.new_key_id


def test_the_change_is_in_the_trail(rotated):
    assert "the yearly change" in Deed.objects.get(what="key_rotated").about


def test_a_bundle_of_before_still_verifies(rotated, tmp_path):
    path = tmp_path / "bundle.zip"
    with open(path, "wb") as file:
        write_bundle(Delivery.objects.get(docket_number="DN-1"), file)
    out = io.StringIO()
    call_command("verify_bundle", path, key_id=rotated.old_key_id, stdout=out)
    with pytest.raises(CommandError):
        call_command("verify_bundle", path, key_id=rotated.new_key_id, stdout=out)


def test_a_seal_by_a_key_that_was_given_up_is_named(kitchen, phone):
    phone.sign(decide(document(kitchen, docket="DN-1")), "key-before-1")
    old = keys.private_key()
    rotate_key("somebody may have read it")
    with pytest.MonkeyPatch.context() as patch, transaction.atomic():
        patch.setattr(keys, "private_key", lambda: old)
        seal(site=kitchen.site, kind="addendum", subject_id=kitchen.site.pk, content={"schema": 1})
    assert "its key had been given up at seal 2" in what(kitchen)


def test_a_change_that_names_another_key_is_named(rotated, kitchen):
    behind(SealingKey).filter(pk=rotated.new_key_id).update(pem=SealingKey.objects.get(pk=rotated.old_key_id).pem)
    assert "the key that it hands over to is gone or was altered" in what(kitchen)


def test_a_change_that_fails_leaves_the_old_key(kitchen, phone, monkeypatch):
    phone.sign(decide(document(kitchen, docket="DN-1")), "key-before-1")
    old = keys.public_pem()
    monkeypatch.setattr(trail, "note_by_operator", lambda *told: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        rotate_key("it breaks off")
    assert (keys.public_pem(), Seal.objects.count(), SealingKey.objects.count()) == (old, 1, 1)
    assert [path.name for path in keys_folder().iterdir()] == [keys.KEY_FILE]


def keys_folder():
    from django.conf import settings

    return settings.KEY_ROOT


def test_every_public_key_is_published_with_the_time_until_which_it_counts(rotated, client, tmp_path):
    text = client.get("/e/keys").content.decode()
    old, new = text.split("Key ")[1:]
    assert rotated.old_key_id in old
    assert "a later seal by it does not count" in old
    assert rotated.new_key_id in new
    assert "until today" in new
    pem = tmp_path / "old.pem"
    pem.write_text(old[old.index("-----BEGIN"):])
    der = subprocess.run(["openssl", "pkey", "-pubin", "-in", pem, "-outform", "DER"], capture_output=True, check=True)
    told = subprocess.run(["openssl", "dgst", "-sha256"], input=der.stdout, capture_output=True, check=True)
    assert rotated.old_key_id in told.stdout.decode()


def test_the_command_says_what_it_did(kitchen, phone):
    phone.sign(decide(document(kitchen, docket="DN-1")), "key-before-1")
    old, out = keys.key_id(keys.public_pem()), io.StringIO()
    call_command("rotate_key", "the yearly change", stdout=out)
    assert keys.key_id(keys.public_pem()) in out.getvalue()
    assert f"{old}, sealed the change at 1 site " in out.getvalue()
    assert json.loads(bytes(Seal.objects.get(kind="key").content))["site"]["code"] == kitchen.site.code
    with pytest.raises(CommandError, match="Nothing was changed"):
        call_command("rotate_key", " ")
