"""What cannot be gets one plain sentence, at once, on the phone, and nothing else is lost."""
import struct
import zlib

import pytest

from tests.journeys.walk import Walk

pytestmark = pytest.mark.browser


def type_into_pad(walk: Walk, text: str) -> str:
    """Type as a keyboard or a paste would, finish, and read the sentence."""
    walk.page.get_by_test_id("pad-value").fill(text)
    walk.page.get_by_test_id("pad-value").press("Enter")
    said = walk.page.locator("#pad-sentence")
    said.filter(has_text=".").wait_for()
    return said.inner_text()


def png_header(width: int, height: int) -> bytes:
    """A PNG that claims a size (PNG specification, IHDR) and has hardly any data behind it."""
    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"\0")) + chunk(b"IEND", b"")


def test_each_wrong_entry_gets_its_sentence_and_the_rest_is_kept(phone, tmp_path):
    walk = Walk(phone.open())
    walk.sign_in()
    page = walk.page
    walk.docket("PO-3", "DN-300")
    said = type_into_pad(walk, "-180")
    assert "180" in said
    assert "kept" in said
    walk.enter("-20")
    assert "whole number of cartons" in type_into_pad(walk, "six")
    walk.count("99999")                          # far from the docket's six: asked again
    walk.tap("count-again")
    walk.count("6")
    walk.count("4")
    walk.tap("choice-sound")
    walk.begin_cartons()
    walk.first_label("L-90")
    walk.tap("all-sound")
    walk.enter("-19")
    assert "1 to 2000" in type_into_pad(walk, "5000")  # more than any sample has
    walk.enter("2000")
    said = type_into_pad(walk, "5oo")
    assert "kept" in said
    said = type_into_pad(walk, "500")            # 2,000 pieces in 500 g
    assert "2000 pieces in 500 g" in said
    walk.tap("leave")
    walk.tap("all-sound-not_taken")
    walk.marks()
    walk.tap("whole-list")
    walk.page.get_by_test_id("item-photos").first.click()

    text = tmp_path / "notes.jpg"
    text.write_text("no picture, only words\n" * 40)
    huge = tmp_path / "huge.png"
    huge.write_bytes(png_header(20000, 10000))
    for path, words in ((text, "not a photo"), (huge, "pixels")):
        page.get_by_test_id("photo-top").set_input_files(str(path))
        alert = page.locator(".photo [role=alert]")
        alert.wait_for()
        alert.filter(has_text=words).wait_for()
        assert page.get_by_test_id("keep-anyway").count() == 0
    assert page.locator(".photo img").count() == 0

    page.reload()
    page.get_by_test_id("whole-list").click()
    shown = page.locator("body").inner_text()
    assert "L-90" in shown or "2000" in shown or "19" in shown
