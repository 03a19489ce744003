"""The check in the supplier's browser, run under Node (the same WebCrypto): it agrees with the command."""
import json
import subprocess
import zipfile
from pathlib import Path

import pytest

from inspections.claims.files import read_files
from inspections.claims.services import Said, say
from inspections.deployment.frontend import node_environment
from inspections.evidence.bundle import write_bundle
from inspections.evidence.bundle_check import check_bundle
from inspections.records.models import Delivery
from tests.inspections.claims.test_page import upload
from tests.inspections.receiving import picture, sha256_of

SCRIPT = Path(__file__).resolve().parents[3] / "inspections" / "evidence" / "static" / "evidence" / "bundle.js"
RUN = """
import { readFileSync } from "node:fs";
import { check } from %s;
for (const name of JSON.parse(process.argv[1])) {
  try { console.log(JSON.stringify((await check(new Uint8Array(readFileSync(name)))).told)); }
  catch (trouble) { console.log(JSON.stringify({ refused: trouble.message, file: trouble.file })); }
}
"""


@pytest.fixture
def bundle(claim, refused, tmp_path) -> Path:
    photo = read_files(refused, [upload("a.jpg", picture("teal"))], {})
    say(claim=claim, said=Said("note", "supplier", "Ade", files=photo))
    path = tmp_path / "bundle.zip"
    with path.open("wb") as out:
        write_bundle(Delivery.objects.get(), out)
    return path


def in_browser(*files: Path) -> list:
    script = RUN % json.dumps(SCRIPT.as_uri())
    told = subprocess.run(["node", "--input-type=module", "-e", script, json.dumps([str(file) for file in files])],
                          capture_output=True, text=True, env=node_environment())
    assert told.returncode == 0, told.stderr
    return [json.loads(line) for line in told.stdout.splitlines()]


def changed(bundle: Path, name: str, change) -> Path:
    out = bundle.with_name(f"changed-{name.replace('/', '-')}.zip")
    with zipfile.ZipFile(bundle) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.namelist():
            content = change(old.read(part)) if part == name else old.read(part)
            if content is not None:
                new.writestr(part, content)
    return out


def test_it_agrees_with_the_command_and_names_the_file_that_was_changed(bundle):
    photo = f"claim-files/{sha256_of(picture('teal'))}.jpg"
    names = ["record.json", "seal.json", "seal.sig", "public-key.pem", "addendum-1/record.json", "addendum-2/seal.sig",
             photo]
    files = [changed(bundle, name, lambda content: content[:-9] + bytes([content[-9] ^ 1]) + content[-8:])
             for name in names]
    whole, *others = in_browser(bundle, *files)
    assert all(one["holds"] for one in whole)
    assert sum(one["isSealed"] for one in whole) == sum(one.is_sealed for one in check_bundle(bundle))
    for name, told in zip(names, others, strict=True):
        wrong = {one["file"] for one in told if not one["holds"]}
        # A signature that does not hold is one of the statement: which of the two was changed nobody can tell.
        assert name.replace("seal.sig", "seal.json") in wrong, (name, wrong)


def test_what_is_missing_cut_or_no_zip_is_said_in_a_sentence(bundle):
    photo = f"claim-files/{sha256_of(picture('teal'))}.jpg"
    without_photo, without_record = (changed(bundle, name, lambda content: None) for name in (photo, "record.json"))
    cut, none = bundle.with_name("cut.zip"), bundle.with_name("none.zip")
    cut.write_bytes(bundle.read_bytes()[:-40])
    none.write_bytes(b"<html>")
    told = in_browser(without_photo, without_record, cut, none)
    assert [one["file"] for one in told[0] if not one["holds"]] == [photo.removesuffix(".jpg")]
    assert told[1] == {"refused": "part-missing", "file": "record.json"}
    assert told[2] == told[3] == {"refused": "no-zip", "file": ""}


def test_a_part_that_unpacks_to_more_than_it_says_is_given_up(bundle):
    content = bytearray(changed(bundle, "README.txt", lambda content: bytes(100_000)).read_bytes())
    at = content.rindex(b"README.txt") - 46 + 24
    content[at:at + 4] = (50).to_bytes(4, "little")
    bomb = bundle.with_name("bomb.zip")
    bomb.write_bytes(content)
    assert in_browser(bomb) == [{"refused": "larger", "file": "README.txt"}]
