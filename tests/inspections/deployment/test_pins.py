"""Pins are read from the lock, and Node's version is judged as Vite asks."""
import stat

import pytest

from inspections.deployment import frontend, pins


def test_the_lock_s_lines_are_read_as_names_and_versions(tmp_path):
    lock = tmp_path / "lock.txt"
    lock.write_text("django==5.2.19 \\\n    --hash=sha256:00\npsycopg[binary]==3.3.9 \\\n"
                    "colorama==0.4.6 ; sys_platform == 'win32' \\\n    # via nothing\n")
    assert [(name, version, bool(marker)) for name, version, marker in pins._pins(lock)] == [
        ("django", "5.2.19", False), ("psycopg", "3.3.9", False), ("colorama", "0.4.6", True)]


def test_a_package_of_another_version_does_not_stand():
    assert not pins._has("django", "0.1")
    assert not pins._has("no-such-package-anywhere", "1")


# Vite 8's own statement of the Node it needs: ^20.19.0 || >=22.12.0 (package.json "engines").
@pytest.mark.parametrize(("said", "fits"), [
    ("v20.19.0", True), ("v20.18.9", False), ("v21.7.0", False), ("v22.11.0", False), ("v22.12.0", True),
    ("v24.1.0", True), ("v18.20.0", False), ("nonsense", False)])
def test_node_fits_as_vite_asks(tmp_path, said, fits):
    node = tmp_path / "node"
    node.write_text(f"#!/bin/sh\necho {said}\n")
    node.chmod(node.stat().st_mode | stat.S_IXUSR)
    assert frontend._fits(str(node)) is fits


def test_no_node_at_all_does_not_fit():
    assert frontend._fits(None) is False
