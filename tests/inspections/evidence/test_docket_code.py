"""The QR code of a docket: read by another library, it leads to the evidence and holds the chain to what it was."""
import base64
import io
import re
from datetime import timedelta
from xml.etree import ElementTree

import numpy as np
import pytest
import zxingcpp
from django.core.management import CommandError, call_command
from django.db import connection
from django.test import Client
from django.utils.crypto import get_random_string

from inspections.evidence import guards, keys
from inspections.evidence.anchors import Anchor, read_anchor
from inspections.evidence.bundle import write_bundle
from inspections.evidence.links import make_link
from inspections.evidence.models import Seal
from inspections.evidence.statement import NO_SEAL_BEFORE
from inspections.people.models import Person, Role
from inspections.records.models import Delivery
from tests.inspections.receiving import decide, document, put_away
from tests.inspections.tamper import behind

SQUARE = re.compile(r"M(\d+) (\d+)h1v1h-1z")


def read_off(page: str) -> str:
    """What a scanner reads off the code of a page, drawn at 4 pixels a module."""
    drawn = ElementTree.fromstring(re.search(r"<svg[^>]*><rect.*?</svg>", page, re.S)[0])
    size = int(drawn.get("viewBox").split()[2])
    pixels = np.full((size, size), 255, np.uint8)
    for x, y in SQUARE.findall(drawn.find("path").get("d")):
        pixels[int(y), int(x)] = 0
    found = zxingcpp.read_barcodes(np.kron(pixels, np.ones((4, 4), np.uint8)))
    assert [one.format for one in found] == [zxingcpp.BarcodeFormat.QRCode]
    return found[0].text


@pytest.fixture
def delivery(kitchen, phone) -> Delivery:
    final = decide(document(kitchen))
    phone.sign(final)
    phone.add(put_away(kitchen, final))
    return Delivery.objects.get()


def test_the_worksheet_s_code_leads_to_the_delivery_and_names_the_site_s_latest_seal(delivery, kitchen, settings):
    settings.PUBLIC_ADDRESS = "https://kitchen.example"
    manager = Person.objects.create(username=get_random_string(8), name="M", role=Role.GROUP_OPERATIONS)
    _, token = make_link(delivery=delivery, person=manager)
    page = Client().get(f"/e/{token}/worksheet").content.decode()
    newest = Seal.objects.order_by("-number").first()
    assert newest.number == 2
    assert read_off(page) == f"https://kitchen.example/e/docket/{delivery.pk}#seal-2-{newest.sha256[:16]}"


def test_where_it_leads_says_the_same_of_every_docket_and_of_none(delivery):
    told = [Client().get(f"/e/docket/{pk}") for pk in (delivery.pk, "00000000-0000-4000-8000-000000000000")]
    assert [one.status_code for one in told] == [200, 200]
    first, second = (one.content.decode().replace(str(pk), "") for one, pk in
                     zip(told, (delivery.pk, "00000000-0000-4000-8000-000000000000"), strict=True))
    assert first == second
    assert delivery.docket_number not in first
    assert told[0]["Referrer-Policy"] == "no-referrer"


@pytest.mark.parametrize(("written", "read"), [
    ("https://kitchen.example/e/docket/0198#seal-12-9f86d081884c7d65", Anchor(12, "9f86d081884c7d65")),
    ("  SEAL-1-" + "AB" * 32 + "\n", Anchor(1, "ab" * 32)),
    ("seal-0-9f86d081884c7d65", None), ("seal-12-9f86d081884c7d6", None), ("seal-12-9f86d081884c7d6g", None),
    ("seal-12-" + "a" * 65, None), ("seal-١٢-9f86d081884c7d65", None), ("", None),
])
def test_an_anchor_is_read_off_an_address_or_by_itself(written, read):
    assert read_anchor(written) == read


def seals_checked(anchor: str) -> str:
    out = io.StringIO()
    call_command("verify_seals", "--anchor", anchor, stdout=out)
    return out.getvalue()


def test_verify_seals_holds_the_chain_to_what_somebody_noted(delivery, kitchen):
    noted = Seal.objects.get(number=1)
    assert f"Seal 1 stands as noted in the chain of: {kitchen.site.code}" in seals_checked(
        f"https://kitchen.example/e/docket/{delivery.pk}#seal-1-{noted.sha256[:16]}")
    for wrong in (f"seal-1-{'0' * 16}", f"seal-3-{noted.sha256[:16]}"):
        with pytest.raises(CommandError, match="1 things are not as they were sealed"):
            seals_checked(wrong)
    with pytest.raises(CommandError, match="No seal stands in what you noted"):
        seals_checked("seal-1")


def resealed_anew() -> None:
    """The whole chain written anew by whoever holds the key: other moments, all signatures right."""
    before = NO_SEAL_BEFORE
    for seal in Seal.objects.order_by("number"):
        seal.previous_sha256, seal.sealed_at = before, seal.sealed_at + timedelta(hours=1)
        statement = seal.statement()
        before = statement.sha256
        behind(Seal).filter(pk=seal.pk).update(
            previous_sha256=seal.previous_sha256, sealed_at=seal.sealed_at, sha256=statement.sha256,
            signature=base64.b64encode(keys.private_key().sign(statement.to_bytes())).decode())
    guards.install(connection)


def test_a_chain_written_anew_is_known_by_the_docket_s_code_alone(kitchen, phone, tmp_path):
    phone.sign(decide(document(kitchen)))
    noted = f"seal-1-{Seal.objects.get().sha256[:16]}"
    delivery = Delivery.objects.get()
    path = tmp_path / "bundle.zip"

    def checked() -> str:
        with path.open("wb") as file:
            write_bundle(delivery, file)
        out = io.StringIO()
        call_command("verify_bundle", str(path), "--anchor", noted, stdout=out)
        return out.getvalue()

    assert "The seal that you noted stands in this file’s chain as you noted it." in checked()
    resealed_anew()
    out = io.StringIO()
    call_command("verify_seals", stdout=out)
    assert "nothing not as sealed" in out.getvalue()
    with pytest.raises(CommandError, match="sealed anew since"):
        checked()
    with pytest.raises(CommandError, match="not as they were sealed"):
        seals_checked(noted)


@pytest.mark.parametrize(("anchor", "agrees"), [
    (Anchor(13, "b" * 16), True), (Anchor(13, "c" * 16), False), (Anchor(12, "a" * 16), True),
    (Anchor(12, "b" * 16), False), (Anchor(11, "a" * 16), None), (Anchor(14, "b" * 16), None),
])
def test_a_seal_or_the_one_after_it_answers_for_what_was_noted(anchor, agrees):
    assert anchor.agrees([(13, "b" * 64, "a" * 64)]) is agrees
