"""A logger file is added to a signed delivery: once, sealed on its own, given back as it came, told to its site."""
import io
import json
import zipfile
from xml.etree import ElementTree

import pytest
from django.core.management import CommandError, call_command
from django.db import IntegrityError
from django.test import Client

from inspections.evidence import logger_files
from inspections.evidence.bundle import write_bundle
from inspections.evidence.links import make_link
from inspections.evidence.logger_files import add_logger_file
from inspections.evidence.logger_page import drawings_of
from inspections.evidence.models import Seal
from inspections.records import storage
from inspections.records.models import Delivery, LoggerFile
from tests.inspections.logs import WARM_SPELL, a_log, csv_of
from tests.inspections.receiving import decide, document, put_away, sha256_of
from tests.inspections.tamper import behind


@pytest.fixture
def delivery(kitchen, phone) -> Delivery:
    """A signed delivery that arrived on 25 November 2026, 06:10 by the clock of Sydney (UTC+11)."""
    assert phone.sign(decide(document(kitchen))).status_code == 200
    return Delivery.objects.get()


def client_of(person) -> Client:
    client = Client()
    client.force_login(person)
    return client


def send(person, delivery, content: bytes, name: str = "trip 12.csv", **told):
    file = io.BytesIO(content)
    file.name = name
    return client_of(person).post(f"/api/deliveries/{delivery.pk}/logger-files", {"file": file, **told})


SYDNEY = {"zone": "Australia/Sydney"}


def test_a_file_is_kept_as_it_came_with_what_it_says(kitchen, delivery):
    answer = send(kitchen.receiver, delivery, a_log(), **SYDNEY)
    told = answer.json()
    assert answer.status_code == 201
    assert (told["file_name"], told["sha256"], told["bytes"]) == ("trip 12.csv", sha256_of(a_log()), len(a_log()))
    assert (told["zone_assumed"], told["answers"], told["person"]) == ("Australia/Sydney", SYDNEY, "Mia Castel")
    assert storage.read(storage.logger_file_name(told["sha256"])) == a_log()
    back = client_of(kitchen.receiver).get(told["file"])
    assert b"".join(back.streaming_content) == a_log()
    assert back["Content-Disposition"].startswith("attachment")
    by_limit = {one["limit_c"]: one for one in told["reading"]["counted"]["limits"]}
    # By hand: nine readings at -9 °C, 80 min from first to last; up from -20 °C before and down again after, in ten
    # minutes each, of which the share above -15 °C is 6/11 and above -12 °C 3/11.
    assert by_limit[-15.0]["minutes"] == pytest.approx(80 + 2 * 10 * 6 / 11, abs=1e-9)
    assert by_limit[-12.0]["minutes"] == pytest.approx(80 + 2 * 10 * 3 / 11, abs=1e-9)
    assert [one["warmest_c"] for one in by_limit[-15.0]["excursions"]] == [-9.0]
    assert by_limit[-15.0]["excursions"][0]["text"].startswith("Tue 24 Nov 2026, 16:55 to 18:25: 91 minutes")


def test_the_desk_gets_both_drawings_as_svg_and_a_word_of_the_file_stays_a_word(kitchen, delivery):
    told = send(kitchen.receiver, delivery, a_log(), **SYDNEY).json()
    drawn = ElementTree.fromstring(f"<figure>{told['drawings']}</figure>")
    assert [svg.get("class") for svg in drawn] == ["phone", "wide"]
    assert all(len(svg.findall("*[@class='bound']")) == 3 for svg in drawn)
    words = {**told["reading"], "summary": "<script>\"'&"}
    first = ElementTree.fromstring(f"<figure>{drawings_of(words)}</figure>")[0]
    assert first.get("aria-label") == "Drawing of the log. <script>\"'&"
    assert {"rows": [told]} == client_of(kitchen.manager).get(f"/api/deliveries/{delivery.pk}/logger-files").json()


def test_what_the_file_says_is_sealed_on_its_own_and_the_delivery_s_seal_stays(kitchen, delivery):
    before = Seal.objects.values().get()
    send(kitchen.receiver, delivery, a_log(), **SYDNEY)
    assert Seal.objects.order_by("number").values()[0] == before
    added = Seal.objects.order_by("number").last()
    content = json.loads(bytes(added.content))
    assert (added.kind, added.number, content["delivery_seal_sha256"]) == ("logger", 2, before["sha256"])
    assert content["logger_file"]["sha256"] == sha256_of(a_log())
    assert content["reading"] == LoggerFile.objects.get().reading
    call_command("verify_seals", stdout=io.StringIO())


def test_the_same_file_twice_is_one_row_and_one_seal(kitchen, delivery):
    first = send(kitchen.receiver, delivery, a_log(), **SYDNEY)
    again = send(kitchen.other_receiver, delivery, a_log(), name="other name.csv", **SYDNEY)
    unasked = send(kitchen.receiver, delivery, a_log())
    assert (first.status_code, again.status_code, unasked.status_code) == (201, 200, 200)
    assert first.json()["id"] == again.json()["id"] == unasked.json()["id"]
    assert (LoggerFile.objects.count(), Seal.objects.count()) == (1, 2)


def test_a_file_with_its_own_zone_is_one_row_whatever_clock_was_named(kitchen, delivery):
    zoned = a_log(stamp="%Y-%m-%dT%H:%M:00+11:00")
    assert send(kitchen.receiver, delivery, zoned, **SYDNEY).json()["zone_assumed"] == ""
    assert send(kitchen.receiver, delivery, zoned, zone="UTC").status_code == 200
    assert LoggerFile.objects.count() == 1


def test_the_same_file_by_another_clock_is_another_reading_and_the_earlier_one_says_so(kitchen, delivery):
    send(kitchen.receiver, delivery, a_log(), zone="UTC")
    send(kitchen.receiver, delivery, a_log(), **SYDNEY)
    rows = client_of(kitchen.manager).get(f"/api/deliveries/{delivery.pk}/logger-files").json()["rows"]
    assert [(row["zone_assumed"], row["is_read_anew"]) for row in rows] == [("UTC", True), ("Australia/Sydney", False)]
    assert rows[0]["reading"]["counted"]["from_s"] - rows[1]["reading"]["counted"]["from_s"] == 11 * 3600


def test_times_without_a_zone_are_asked_about_and_the_site_s_clock_comes_first(kitchen, delivery):
    answer = send(kitchen.receiver, delivery, a_log())
    told = answer.json()
    assert (answer.status_code, told["code"], told["ask"]["name"]) == (422, "LOG-07", "zone")
    assert told["ask"]["choices"][0] == {
        "value": "Australia/Sydney", "text": "Australia/Sydney (this site)",
    }  # fmt: skip
    assert told["ask"]["choices"][1]["value"] == "UTC"
    assert {"value": "+05:30", "text": "UTC+05:30"} in told["ask"]["choices"]
    assert (LoggerFile.objects.count(), Seal.objects.count()) == (0, 1)


@pytest.mark.parametrize(("zone", "hours"), [("Australia/Sydney", 11), ("UTC", 0), ("+05:30", 5.5), ("-03:00", -3)])
def test_a_named_clock_holds_from_the_first_reading_on(kitchen, delivery, zone, hours):
    reading = send(kitchen.receiver, delivery, a_log(), zone=zone).json()["reading"]
    # 1795521600 is 2026-11-24 12:00 UTC.
    assert reading["plot"]["from_s"] == 1795521600 - hours * 3600


@pytest.mark.parametrize("zone", ["Mars/Olympus", "+15:00", "../../etc/passwd", "x" * 500, "+1", "\0"])
def test_a_clock_that_does_not_exist_is_refused_in_a_sentence(kitchen, delivery, zone):
    answer = send(kitchen.receiver, delivery, a_log(), zone=zone)
    assert (answer.status_code, answer.json()["code"]) == (422, "LOGGER-ANSWER")


def test_unit_day_order_and_column_are_asked_one_at_a_time(kitchen, delivery):
    rows = "".join(f"{3 + i}/11/2026 06:00,-4.0,5.0\n" for i in range(3))
    content = f"Time,Probe 1,Probe 2\n{rows}".encode()
    told: dict[str, str] = {}
    asked = []
    for value in ("Probe 2", "day_first", "F", "+11:00"):
        answer = send(kitchen.receiver, delivery, content, **told).json()
        asked.append(answer["ask"]["name"])
        assert value in [choice["value"] for choice in answer["ask"]["choices"]]
        told[answer["ask"]["name"]] = value
    assert asked == ["column", "day_order", "unit", "zone"]
    kept = send(kitchen.receiver, delivery, content, **told).json()
    assert kept["answers"] == told
    # 5 °F is -15 °C (check-values 5.3, computed).
    assert kept["reading"]["counted"]["warmest_c"] == -15.0
    assert "not Probe 1" in " ".join(remark["text"] for remark in kept["reading"]["remarks"])


@pytest.mark.parametrize("told", [{"unit": "K"}, {"day_order": "year_first"}, {"left_at": "soon"}])
def test_an_answer_that_is_none_of_the_choices_is_refused(kitchen, delivery, told):
    content = b"Time,Temp\n03/04/2026 06:00,-18\n04/04/2026 06:00,-18\n"
    given = {"unit": "C", "day_order": "day_first", **told}
    answer = send(kitchen.receiver, delivery, content, **given)
    assert (answer.status_code, answer.json()["code"]) == (422, "LOGGER-ANSWER")


BROKEN = [
    (b"", "LOG-01"),
    (b"\0\0\0\0", "LOG-01"),
    (b"%PDF-1.7 trip report", "LOG-09"),
    (b"PK\x03\x04 a spreadsheet", "LOG-09"),
    (bytes(range(256)) * 20, "LOG-09"),
    (b"a,b\n1,2\n", "LOG-02"),
    (b"Time,Humidity %\n2026-11-24 06:00,50\n", "LOG-03"),
    (b"Time,Temp C\n", "LOG-06"),
    (b"Time,Temp C\nyesterday,cold\n", "LOG-06"),
    (b"Time,Temp C\n" + b"x\n" * 200_001, "LOG-05"),
]


@pytest.mark.parametrize(("content", "code"), BROKEN)
def test_a_file_that_cannot_be_used_gets_its_sentence_and_leaves_nothing(kitchen, delivery, content, code):
    answer = send(kitchen.receiver, delivery, content, **SYDNEY)
    told = answer.json()
    assert (answer.status_code, told["code"]) == (422, code)
    assert "{" not in told["sentence"]
    assert len(told["sentence"].split(". ")) >= 3
    assert (LoggerFile.objects.count(), Seal.objects.count()) == (0, 1)


def test_a_file_over_5_mb_is_refused(kitchen, delivery):
    answer = send(kitchen.receiver, delivery, b"x" * (5 * 1024 * 1024 + 1))
    assert (answer.status_code, answer.json()["facts"]) == (413, {"most_mb": 5})


def test_a_request_without_a_file_is_refused(kitchen, delivery):
    answer = client_of(kitchen.receiver).post(f"/api/deliveries/{delivery.pk}/logger-files", {"zone": "UTC"})
    assert (answer.status_code, answer.json()["code"]) == (422, "LOGGER-NO-FILE")


def test_when_the_goods_left_is_by_the_site_s_clock_and_bounds_what_is_counted(kitchen, delivery):
    told = send(kitchen.receiver, delivery, a_log(), left_at="2026-11-24T17:30", **SYDNEY).json()
    counted = told["reading"]["counted"]
    assert counted["from"] == "Tue 24 Nov 2026, 17:30"
    assert "before_leaving" in [remark["code"] for remark in told["reading"]["remarks"]]
    wrong = send(kitchen.receiver, delivery, a_log(), left_at="2026-11-25T06:10", **SYDNEY)
    assert wrong.json()["code"] == "LOGGER-LEFT"
    assert send(kitchen.receiver, delivery, a_log(), left_at="0001-01-01T00:00", **SYDNEY).status_code == 422


def test_a_file_of_another_day_is_kept_and_says_that_nothing_lies_on_the_way(kitchen, delivery):
    content = csv_of(WARM_SPELL, stamp="2027-01-%d %H:%M").encode()
    reading = send(kitchen.receiver, delivery, content, **SYDNEY).json()["reading"]
    assert reading["counted"] is None
    assert reading["remarks"][0]["code"] == "outside"
    assert reading["summary"] == "Nothing of this file could be counted for these goods."


@pytest.mark.parametrize(
    ("who", "listed", "sent"),
    [("receiver", 200, 201), ("other_receiver", 200, 201), ("manager", 200, 201), ("stranger", 404, 404),
     (None, 401, 401)],
)  # fmt: skip
def test_people_of_the_site_may_send_and_see_others_learn_nothing(kitchen, delivery, who, listed, sent):
    first = send(kitchen.manager, delivery, a_log(), zone="UTC").json()
    client = client_of(getattr(kitchen, who)) if who else Client()
    assert client.get(f"/api/deliveries/{delivery.pk}/logger-files").status_code == listed
    assert client.get(f"/api/logger-files/{first['id']}").status_code == listed
    assert client.get(first["file"]).status_code == listed
    file = io.BytesIO(a_log())
    file.name = "a.csv"
    answer = client.post(f"/api/deliveries/{delivery.pk}/logger-files", {"file": file, **SYDNEY})
    assert answer.status_code == sent


def test_the_loser_of_two_twins_gets_the_winner_s_row(kitchen, delivery, monkeypatch):
    told = {"zone": "UTC"}
    winner, _ = add_logger_file(
        delivery=delivery, name="a.csv", content=a_log(), told=told, person=kitchen.receiver)  # fmt: skip
    real, tries = logger_files.keep_logger_file, []

    def late(**given):
        tries.append(given)
        if len(tries) == 1:
            raise IntegrityError("the twin was first")
        return real(**given)

    monkeypatch.setattr(logger_files, "keep_logger_file", late)
    row, is_new = add_logger_file(
        delivery=delivery, name="b.csv", content=a_log(), told=told, person=kitchen.manager)  # fmt: skip
    assert (row, is_new, len(tries)) == (winner, False, 2)
    assert Seal.objects.count() == 2


def test_a_delivery_without_a_seal_takes_no_logger_file(kitchen, delivery):
    behind(Seal).all().delete()
    answer = send(kitchen.receiver, delivery, a_log(), zone="UTC")
    assert (answer.status_code, answer.json()["code"]) == (422, "LOGGER-NO-SEAL")
    assert LoggerFile.objects.count() == 0


def test_a_row_is_written_once(kitchen, delivery):
    send(kitchen.receiver, delivery, a_log(), **SYDNEY)
    row = LoggerFile.objects.get()
    row.reading = {}
    for attempt in (row.save, row.delete, lambda: LoggerFile.objects.update(reading={})):
        with pytest.raises(Exception, match="cannot be altered"):
            attempt()


@pytest.mark.parametrize("name", ["../../x.csv", "C:\\temp\\x.csv", "a\nb\0.csv", "", "n" * 400 + ".csv"])
def test_only_a_plain_name_is_kept(kitchen, delivery, name):
    send(kitchen.receiver, delivery, a_log(), name=name or "unnamed", **SYDNEY)
    kept = LoggerFile.objects.get().file_name
    assert 0 < len(kept) <= 120
    assert not set(kept) & set("/\\\n\0")


# ---- what a supplier gets ---------------------------------------------------------------------------------
@pytest.fixture
def token(kitchen, delivery) -> str:
    send(kitchen.receiver, delivery, a_log(), **SYDNEY)
    return make_link(delivery=delivery, person=kitchen.manager)[1]


def test_the_page_shows_findings_drawing_hash_and_a_download(token):
    page = Client().get(f"/e/{token}").content.decode().replace("\u00a0", " ")
    assert "Added after signing" in page
    assert "by Mia Castel" in page
    assert "Warmer than −15.0 °C for 91 minutes, in 1 stretch." in page
    assert "dH = 83.144 kJ/mol" in page
    assert "pharmacopoeial convention" in page
    assert sha256_of(a_log()) in page
    assert page.count('<polyline class="curve"') == 2
    address = f"/e/{token}/logger-files/{LoggerFile.objects.get().pk}"
    assert address in page
    assert b"".join(Client().get(address).streaming_content) == a_log()


def test_another_delivery_s_logger_file_is_not_behind_the_link(kitchen, phone, token):
    phone.sign(decide(document(kitchen, docket="DN-2")), key="key-for-signing-0002")
    other = Delivery.objects.get(docket_number="DN-2")
    told = send(kitchen.receiver, other, a_log(), zone="UTC").json()
    assert Client().get(f"/e/{token}/logger-files/{told['id']}").status_code == 404


@pytest.fixture
def bundle(kitchen, phone, token, tmp_path):
    """The bundle of a delivery with a put-away and a logger file read by two clocks."""
    delivery = Delivery.objects.get()
    phone.add(put_away(kitchen, delivery.document))
    send(kitchen.receiver, delivery, a_log(), zone="UTC")
    path = tmp_path / "bundle.zip"
    with open(path, "wb") as file:
        write_bundle(delivery, file)
    return path


def checked(path) -> str:
    out = io.StringIO()
    try:
        call_command("verify_bundle", str(path), stdout=out)
    except CommandError as broken:
        out.write(str(broken))
    return out.getvalue()


def test_the_bundle_holds_the_file_once_and_its_hash_is_checked(bundle):
    name = f"logger-files/{sha256_of(a_log())}.csv"
    told = checked(bundle)
    assert "checks hold." in told
    assert f"holds       {name}: is the logger file that its name says" in told
    with zipfile.ZipFile(bundle) as opened:
        assert opened.read(name) == a_log()
        assert [one for one in opened.namelist() if one.startswith("logger-files/")] == [name]
        readme = opened.read("README.txt").decode()
        assert "logger-files/" in readme
        assert opened.read("logger-files.txt").decode() == f"{sha256_of(a_log())}  trip 12.csv\n"
        assert {"addendum-1/seal.json", "addendum-2/seal.json", "addendum-3/seal.json"} <= set(opened.namelist())


def test_an_altered_or_missing_logger_file_in_the_bundle_is_named(bundle, tmp_path):
    name = f"logger-files/{sha256_of(a_log())}.csv"
    for change, told in ((lambda c: c + b" ", "DOES NOT"), (lambda c: None, "is in the bundle")):
        out = tmp_path / "changed.zip"
        with zipfile.ZipFile(bundle) as before, zipfile.ZipFile(out, "w") as after:
            for entry in before.namelist():
                content = change(before.read(entry)) if entry == name else before.read(entry)
                if content is not None:
                    after.writestr(entry, content)
        assert told in checked(out)
        assert "do not hold" in checked(out)


@pytest.mark.parametrize(
    ("harm", "told"),
    [
        (lambda row: storage.put(row.stored_name, b"other"), "is gone or was altered"),
        (lambda row: behind(LoggerFile).update(reading={}),
         "is not what was sealed"),
        (lambda row: behind(LoggerFile).delete(), "is gone"),
    ],
)  # fmt: skip
def test_the_check_of_the_seals_finds_what_was_altered(token, harm, told):
    harm(LoggerFile.objects.get())
    out = io.StringIO()
    with pytest.raises(CommandError):
        call_command("verify_seals", stdout=out)
    assert told in out.getvalue()


def test_every_question_has_a_sentence_of_the_catalogue(db):
    from inspections.records.services.logger_file import QUESTIONS
    from tests.inspections.messages.test_catalogue import ALL

    assert set(QUESTIONS) <= ALL
