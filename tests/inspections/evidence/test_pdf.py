"""The evidence page as a PDF: tagged, with alternative texts, the page's words in it, small with twelve photos.

Source: ISO 14289-1 (PDF/UA-1): catalogue with Lang, MarkInfo, StructTreeRoot, the title shown, figures with Alt.
"""
import io
import re

import numpy as np
import pypdf
import pytest
from django.test import Client
from PIL import Image

from inspections.evidence.links import make_link
from inspections.records.models import Delivery
from tests.inspections.receiving import decide, document, keep, photo_entry, put_away


def noisy(seed: int) -> bytes:
    """A photo of 12 megapixels that does not compress well."""
    noise = np.random.default_rng(seed).integers(60, 200, (300, 400, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(noise).resize((4000, 3000), Image.Resampling.BILINEAR).save(out, "JPEG", quality=88)
    return out.getvalue()


@pytest.fixture
def link(kitchen, phone) -> str:
    draft = document(kitchen, bad=True)
    draft["vehicle"]["note"] = "Seal from Łódź, Ω 3"
    line = draft["lines"][0]
    for number in range(12):
        content = noisy(number)
        keep(content)
        carton = line["cartons"][number % 3]["id"]
        draft["photos"].append(photo_entry(content, line_id=line["id"], carton_id=carton,
                                           purpose="temperature" if number < 2 else "sample"))
    final = decide(draft, kind="reject", reason="Too warm.")
    assert phone.sign(final).status_code == 200
    assert phone.add(put_away(kitchen, final, body={"cartons": [], "freezer_air": None})).status_code == 200
    return make_link(delivery=Delivery.objects.get(), person=kitchen.manager)[1]


@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 595, 842), ("letter", 612, 792)])
def test_it_is_tagged_says_what_the_page_says_and_is_small(link, paper, width, height):
    answer = Client().get(f"/e/{link}/evidence.pdf?paper={paper}")
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Referrer-Policy"] == "no-referrer"
    assert len(answer.content) < 3_000_000
    pdf = pypdf.PdfReader(io.BytesIO(answer.content))
    root = pdf.trailer["/Root"]
    assert bool(root["/MarkInfo"]["/Marked"])
    assert str(root["/Lang"]).lower() == "en-gb"
    assert bool(root["/ViewerPreferences"]["/DisplayDocTitle"])
    assert b"pdfuaid:part" in root["/Metadata"].get_object().get_data()
    assert (round(float(pdf.pages[0].mediabox.width)), round(float(pdf.pages[0].mediabox.height))) == (width, height)
    tags = list(structure(root["/StructTreeRoot"]))
    kinds = [kind for kind, _ in tags]
    assert {"/H1", "/H2", "/Table", "/TH", "/Figure", "/L"} <= set(kinds)
    # a limit and whose it is are two sentences, as on the page
    assert not re.search(r"[a-z%] (house|published) limit", "".join(page.extract_text() for page in pdf.pages)
                         .partition("Cartons opened")[2])
    figures = [alt for kind, alt in tags if kind == "/Figure"]
    assert len(figures) == 14  # twelve photos, two signatures
    assert all(figures)
    assert "Photo 1: temperature, carton 3" in figures
    text = "".join(page.extract_text() for page in pdf.pages)
    for words in ("DN-5530", "Cold Reach Seafood", "Łódź, Ω 3", "Refused", "−9.5", "Hash of this seal",
                  "Nothing went into"):
        assert words.lower() in text.lower(), words


def test_other_papers_and_ended_links_get_a_sentence(link):
    assert Client().get(f"/e/{link}/evidence.pdf?paper=stone").status_code == 404
    assert Client().get(f"/e/{link[:-1]}/evidence.pdf").status_code == 404


def structure(node):
    """Kind and alternative text of every element below a node of the structure."""
    kids = node.get("/K")
    for kid in kids if isinstance(kids, list) else [kids]:
        kid = kid.get_object() if hasattr(kid, "get_object") else kid
        if isinstance(kid, dict) and "/S" in kid:
            yield kid["/S"], str(kid.get("/Alt", ""))
            yield from structure(kid)
