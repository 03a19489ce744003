"""The app and the API go out compressed, each as the browser asks for it."""
import gzip
import zlib

import brotli
import pytest

from inspections.deployment import frontend

UNPACK = {"br": brotli.decompress, "gzip": gzip.decompress}


@pytest.mark.parametrize(("asked", "encoding"), [
    ("gzip, deflate, br", "br"), ("gzip", "gzip"), ("br;q=1.0, gzip;q=0.5", "br")])
def test_the_api_answers_compressed(cast, signed_in, asked, encoding):
    client = signed_in(cast.manager)
    plain = client.get("/sync/reference")
    answer = client.get("/sync/reference", HTTP_ACCEPT_ENCODING=asked)
    assert answer["Content-Encoding"] == encoding
    assert "Accept-Encoding" in answer["Vary"]
    assert answer["ETag"].startswith('W/"')
    assert UNPACK[encoding](answer.content)[:200] == plain.content[:200]
    assert len(answer.content) < len(plain.content) / 2
    again = client.get("/sync/reference", HTTP_ACCEPT_ENCODING=asked, HTTP_IF_NONE_MATCH=answer["ETag"])
    assert again.status_code == 304


def test_who_takes_no_compression_gets_none(cast, signed_in):
    assert "Content-Encoding" not in signed_in(cast.manager).get("/sync/reference")


def test_a_short_answer_stays_as_it_is(client):
    assert "Content-Encoding" not in client.get("/health/live", HTTP_ACCEPT_ENCODING="br")


@pytest.mark.parametrize(("asked", "ending"), [("br", ".br"), ("gzip", ".gz")])
def test_the_app_s_files_are_compressed_ahead_of_time(tmp_path, monkeypatch, settings, asked, ending):
    assets = tmp_path / "assets"
    assets.mkdir()
    script = b"const carton = 'one of twenty';\n" * 100
    (assets / "index-abc123.js").write_bytes(script)
    monkeypatch.setattr(frontend, "DIST", tmp_path)
    frontend._compress()
    assert (assets / f"index-abc123.js{ending}").stat().st_size < len(script) / 5
    from whitenoise import WhiteNoise

    told = {}
    served = WhiteNoise(None, root=tmp_path)
    body = served({"PATH_INFO": "/assets/index-abc123.js", "REQUEST_METHOD": "GET", "HTTP_ACCEPT_ENCODING": asked},
                  lambda status, headers: told.update(headers))
    assert (told["Content-Encoding"], told["Vary"]) == ({"br": "br", "gzip": "gzip"}[asked], "Accept-Encoding")
    content = b"".join(body)
    body.close()
    assert (brotli.decompress(content) if asked == "br" else zlib.decompress(content, 31)) == script
