"""The sealing key: made once, whoever comes first, readable by its owner only."""
import stat
import subprocess
from concurrent.futures import ThreadPoolExecutor

from inspections.evidence import keys


def test_it_is_made_once_and_only_its_owner_may_read_it(apart):
    first = keys.public_pem()
    path = apart / "keys" / keys.KEY_FILE
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert keys.public_pem() == first


def test_two_starters_agree_on_one_key(apart):
    with ThreadPoolExecutor(16) as pool:
        seen = set(pool.map(lambda _: keys.public_pem(), range(64)))
    assert len(seen) == 1
    assert [path.name for path in (apart / "keys").iterdir()] == [keys.KEY_FILE]


def test_its_number_is_what_openssl_says(apart, tmp_path):
    path = tmp_path / "public-key.pem"
    path.write_text(keys.public_pem())
    der = subprocess.run(["openssl", "pkey", "-pubin", "-in", path, "-outform", "DER"], capture_output=True, check=True)
    told = subprocess.run(["openssl", "dgst", "-sha256"], input=der.stdout, capture_output=True, check=True)
    assert keys.key_id(path.read_text()) in told.stdout.decode()
