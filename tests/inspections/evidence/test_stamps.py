"""Time stamps of seals (RFC 3161) by an authority made here with OpenSSL, and what a wrong one is answered with."""
import io
import shutil
import subprocess
import threading
import zipfile
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from inspections.evidence.bundle import write_bundle
from inspections.evidence.bundle_check import check_bundle
from inspections.evidence.checking import verify_chain
from inspections.evidence.models import Seal, TimeStamp
from inspections.evidence.stamps import CannotStamp, stamp
from inspections.records.models import Delivery
from tests.inspections.receiving import Phone, decide, document
from tests.inspections.tamper import behind

pytestmark = pytest.mark.skipif(
    shutil.which("openssl") is None,
    reason="openssl is not installed here, and the authority is made with it; in CI that fails",
)

# As in ts(1): the certificate is for time stamping alone (RFC 3161, 2.3).
CONFIG = """
[req]
distinguished_name = name
[name]
[root]
basicConstraints = critical,CA:TRUE
keyUsage = critical,keyCertSign
subjectKeyIdentifier = hash
[tsa]
basicConstraints = critical,CA:FALSE
keyUsage = critical,digitalSignature
extendedKeyUsage = critical,timeStamping
subjectKeyIdentifier = hash
authorityKeyIdentifier = keyid
[here]
serial = serial
crypto_device = builtin
signer_cert = tsa.pem
signer_key = tsa.key
signer_digest = sha256
default_policy = 1.2.3.4.1
digests = sha256
accuracy = secs:1
ordering = no
tsa_name = no
ess_cert_id_chain = no
ess_cert_id_alg = sha256
"""


def openssl(folder: Path, *words: str) -> bytes:
    return subprocess.run(["openssl", *words], cwd=folder, capture_output=True, check=True).stdout


def make_authority(folder: Path) -> Path:
    """A root and a time-stamping certificate below it, in a folder of their own."""
    folder.mkdir()
    (folder / "ts.cnf").write_text(CONFIG)
    (folder / "serial").write_text("01\n")
    new = ("-newkey", "rsa:2048", "-nodes", "-config", "ts.cnf")
    openssl(folder, "req", "-x509", *new, "-extensions", "root", "-subj", "/CN=Test root", "-days", "2",
            "-keyout", "root.key", "-out", "root.pem")
    openssl(folder, "req", *new, "-subj", "/CN=Test stamps", "-keyout", "tsa.key", "-out", "tsa.csr")
    openssl(folder, "x509", "-req", "-in", "tsa.csr", "-CA", "root.pem", "-CAkey", "root.key", "-CAcreateserial",
            "-extfile", "ts.cnf", "-extensions", "tsa", "-days", "2", "-out", "tsa.pem")
    return folder


@pytest.fixture(scope="module")
def authority(tmp_path_factory):
    return make_authority(tmp_path_factory.mktemp("tsa") / "one")


@pytest.fixture
def asked(authority, settings):
    """The authority behind an address, set; what it was asked."""
    queries = []

    class Stamps(BaseHTTPRequestHandler):
        def do_POST(self):
            queries.append(self.rfile.read(int(self.headers["Content-Length"])))
            (authority / "query.tsq").write_bytes(queries[-1])
            openssl(authority, "ts", "-reply", "-config", "ts.cnf", "-section", "here", "-queryfile", "query.tsq",
                    "-out", "reply.tsr")
            self.send_response(200)
            self.send_header("Content-Type", "application/timestamp-reply")
            self.end_headers()
            self.wfile.write((authority / "reply.tsr").read_bytes())

        def log_message(self, *told):
            pass

    server = HTTPServer(("127.0.0.1", 0), Stamps)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    settings.TSA, settings.TSA_ROOTS = f"http://127.0.0.1:{server.server_port}/", str(authority / "root.pem")
    yield queries
    server.shutdown()
    server.server_close()


@pytest.fixture
def sealed(kitchen, phone) -> Seal:
    phone.sign(decide(document(kitchen, docket="DN-1")), "stamped-key-1")
    return Seal.objects.get()


def what(kitchen) -> list[str]:
    return [mismatch.what for mismatch in verify_chain(kitchen.site)]


def test_a_stamp_is_kept_once_and_openssl_verifies_it(asked, sealed, kitchen, authority, tmp_path):
    row = stamp(sealed)
    assert stamp(sealed) == row
    assert len(asked) == TimeStamp.objects.count() == 1
    assert abs((row.at - sealed.sealed_at).total_seconds()) < 60
    assert what(kitchen) == []
    # Only the hash goes out: nothing of the record is in what the authority was asked.
    assert bytes.fromhex(sealed.sha256) in asked[0]
    assert len(asked[0]) < 100
    (tmp_path / "seal.json").write_bytes(sealed.statement().to_bytes())
    (tmp_path / "stamp.tsr").write_bytes(row.token)
    openssl(tmp_path, "ts", "-verify", "-data", "seal.json", "-in", "stamp.tsr", "-CAfile", str(authority / "root.pem"))


def test_the_command_stamps_the_latest_seal_of_each_site_and_the_page_says_by_when(asked, sealed, kitchen, phone):
    phone.sign(decide(document(kitchen, docket="DN-2")), "stamped-key-2")
    out = io.StringIO()
    call_command("stamp_seals", stdout=out)
    assert f"{kitchen.site.code}: seal 2 was stamped at " in out.getvalue()
    assert f"{kitchen.other_site.code}: no seals yet" in out.getvalue()
    link = Phone(kitchen.manager).client.post(
        f"/api/deliveries/{sealed.subject_id}/evidence-links", "{}", content_type="application/json").json()["url"]
    page = phone.client.get(link.removeprefix("http://testserver").partition("#")[0]).content.decode()
    assert "stamped seal 2 of this site" in page
    assert "no outside authority" not in page


def test_without_an_authority_nothing_is_asked(sealed):
    with pytest.raises(CommandError, match="UNDERLID_TSA"):
        call_command("stamp_seals")


def test_a_stamp_by_somebody_else_is_named_and_not_taken(asked, sealed, kitchen, settings, tmp_path):
    stamp(sealed)
    settings.TSA_ROOTS = ""
    assert any("cannot be checked" in one for one in what(kitchen))
    settings.TSA_ROOTS = str(make_authority(tmp_path / "two") / "root.pem")
    assert any("time stamp does not hold" in one for one in what(kitchen))
    behind(TimeStamp).all().delete()
    with pytest.raises(CannotStamp, match="Nothing was kept"):
        stamp(sealed)
    assert TimeStamp.objects.count() == 0


def test_an_altered_stamp_is_named(asked, sealed, kitchen):
    row = stamp(sealed)
    token = bytearray(row.token)
    token[-5] ^= 1  # in the signature
    behind(TimeStamp).update(token=bytes(token))
    assert any("time stamp does not hold" in one for one in what(kitchen))


def test_an_authority_that_is_away_is_told_and_nothing_kept(sealed, settings, authority):
    settings.TSA, settings.TSA_ROOTS = "http://127.0.0.1:9/", str(authority / "root.pem")
    with pytest.raises(CannotStamp, match="could not be reached"):
        stamp(sealed)
    assert TimeStamp.objects.count() == 0


def bundle_of(delivery_id, folder: Path) -> Path:
    path = folder / "evidence.zip"
    with path.open("wb") as file:
        write_bundle(Delivery.objects.get(pk=delivery_id), file)
    return path


@pytest.mark.parametrize("is_later", [False, True])
def test_the_bundle_carries_the_stamp_and_holds_by_the_steps_of_its_readme(
    asked, authority, sealed, phone, kitchen, tmp_path, is_later
):
    """The steps are those of ts(1) of OpenSSL 3."""
    if is_later:
        phone.sign(decide(document(kitchen, docket="DN-2")), "stamped-key-2")
    stamp(Seal.objects.latest("number"))
    path = bundle_of(sealed.subject_id, tmp_path)
    assert all(one.holds for one in check_bundle(path))
    with zipfile.ZipFile(path) as opened:
        opened.extractall(tmp_path)
    (tmp_path / "roots.pem").write_bytes((authority / "root.pem").read_bytes())
    steps = [line.strip() for line in (tmp_path / "README.txt").read_text().splitlines() if "time-stamp/" in line]
    verify, when, chain = (line for line in steps if line.startswith("openssl"))
    told = subprocess.run(verify.split(), cwd=tmp_path, capture_output=True, text=True)
    assert "Verification: OK" in told.stdout + told.stderr
    assert b"Time stamp:" in openssl(tmp_path, *when.split()[1:])
    hashes = subprocess.run(chain, shell=True, cwd=tmp_path, capture_output=True, text=True).stdout.split("\n")[:-1]
    assert [line.split("= ")[1] for line in hashes] == list(Seal.objects.order_by("number").values_list(
        "sha256", flat=True))
    assert (tmp_path / "time-stamp/seal-0000001.json").read_bytes() == (tmp_path / "seal.json").read_bytes()


def test_a_stamp_of_another_seal_is_named(asked, sealed, phone, kitchen, tmp_path):
    phone.sign(decide(document(kitchen, docket="DN-2")), "stamped-key-2")
    stamp(Seal.objects.latest("number"))
    path = bundle_of(sealed.subject_id, tmp_path)
    altered = tmp_path / "altered.zip"
    with zipfile.ZipFile(path) as opened, zipfile.ZipFile(altered, "w") as made:
        for name in opened.namelist():
            if name != "time-stamp/seal-0000002.json":
                made.writestr(name, opened.read(name))
    assert [one.what.split(":")[0] for one in check_bundle(altered) if not one.holds] == ["time-stamp/stamp.tsr"]


def test_without_a_stamp_the_bundle_says_nothing_of_one(sealed, tmp_path):
    with zipfile.ZipFile(bundle_of(sealed.subject_id, tmp_path)) as opened:
        assert not [name for name in opened.namelist() if "stamp" in name]
        assert b"stamp" not in opened.read("README.txt")
