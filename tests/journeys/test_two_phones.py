"""Two phones on one docket: the second gets a clear choice, and nothing is overwritten."""
import pytest

from tests.journeys.reach import Screens
from tests.journeys.walk import Walk

pytestmark = pytest.mark.browser


def test_the_second_phone_chooses_and_the_first_loses_nothing(phone, second_phone):
    first = Walk(phone.open())
    first.sign_in("rosa")
    first.docket("PO-4", "DN-400")
    first.enter("-20")
    first.page.get_by_text("All on").wait_for(timeout=30000)

    screens = Screens()
    second = Walk(second_phone.open(), screens)
    second.sign_in("tomas")
    second.docket("PO-4", "dn 400")              # the same docket as another person writes it
    second.page.get_by_test_id("conflict").wait_for(timeout=30000)
    assert "Rosa Lind" in second.page.get_by_test_id("conflict").inner_text()
    assert "Nothing has been overwritten" in second.page.get_by_test_id("conflict").inner_text()
    second.tap("send-separate")
    assert screens.wrong == {}                   # the choice can be touched and read too
    second.page.get_by_test_id("conflict").wait_for(state="detached")
    second.enter("-19")
    second.page.get_by_text("All on").wait_for(timeout=30000)

    opened = second.page.evaluate("() => fetch('/sync/reference').then(answer => answer.json())")["open_documents"]
    same = [one for one in opened if one["docket_number"].upper().replace(" ", "-") == "DN-400"]
    assert {one["person_name"] for one in same} == {"Rosa Lind", "Tomas Vale"}
