"""Files are whole or absent, and an interrupted write leaves nothing under the name."""
import os
import time

import pytest
from django.core.files.base import ContentFile

from inspections.records.storage import DurableFiles, derived_name, kind_of, photo_name


@pytest.fixture
def files(tmp_path) -> DurableFiles:
    return DurableFiles(location=tmp_path)


def test_a_file_is_written_with_its_folders(files, tmp_path):
    files.save("ab/cd/name", ContentFile(b"bytes"))
    assert (tmp_path / "ab/cd/name").read_bytes() == b"bytes"


def test_a_name_is_replaced_and_never_renamed_aside(files, tmp_path):
    files.save("ab/name", ContentFile(b"old"))
    assert files.save("ab/name", ContentFile(b"new")) == "ab/name"
    assert [path.name for path in (tmp_path / "ab").iterdir()] == ["name"]
    assert (tmp_path / "ab/name").read_bytes() == b"new"


def test_a_write_that_breaks_off_leaves_the_old_file(files, tmp_path):
    class Broken(ContentFile):
        def chunks(self, chunk_size=None):
            yield b"half"
            raise OSError("disk pulled")

    files.save("ab/name", ContentFile(b"old"))
    with pytest.raises(OSError, match="disk pulled"):
        files.save("ab/name", Broken(b"x"))
    assert [path.name for path in (tmp_path / "ab").iterdir()] == ["name"]
    assert (tmp_path / "ab/name").read_bytes() == b"old"


def test_what_a_kill_left_half_written_has_no_name_and_goes_after_a_day(files, tmp_path, monkeypatch):
    class Killed(BaseException):
        pass

    def killed(*args):
        raise Killed

    with monkeypatch.context() as patch:
        patch.setattr("inspections.records.storage.os.replace", killed)
        patch.setattr("inspections.records.storage.Path.unlink", lambda *args, **more: None)  # nothing runs then
        with pytest.raises(Killed):
            files.save("ab/name", ContentFile(b"bytes"))
    assert not files.exists("ab/name")
    (left,) = (tmp_path / ".coming").iterdir()
    assert files.clear_half_written() == 0
    os.utime(left, (0, time.time() - 25 * 3600))
    assert files.clear_half_written() == 1
    assert list((tmp_path / ".coming").iterdir()) == []


def test_the_file_and_its_folder_are_flushed_before_save_returns(files, monkeypatch):
    flushed = []
    monkeypatch.setattr("inspections.records.storage.os.fsync", flushed.append)
    files.save("new/name", ContentFile(b"x"))
    # The folder's parent for its new entry, the file, the folder for the new name.
    assert len(flushed) == 3


def test_names_say_where_a_photo_and_its_pictures_lie():
    sha256 = "ab" * 32
    assert photo_name(sha256) == f"ab/{sha256}"
    assert derived_name(sha256, "thumb") == f"derived/ab/{sha256}/thumb"


@pytest.mark.parametrize(
    ("head", "kind"),
    [(b"\x89PNG\r\n\x1a\n....", "image/png"), (b"RIFF....WEBP", "image/webp"), (b"\xff\xd8\xff\xe0", "image/jpeg")],
)
def test_the_kind_of_a_derived_picture_is_read_from_it(head, kind):
    assert kind_of(ContentFile(head)) == kind
