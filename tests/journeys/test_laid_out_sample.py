"""The photo that advice is given on, all the way: laid out, taken, framed by the worker, shown to the supplier."""
import pytest

from fixtures.scenes import draw_scene
from tests.imaging.laid_out import request
from tests.journeys.test_docket_to_freezer import api, wait_for
from tests.journeys.walk import Walk, wait_until

pytestmark = pytest.mark.browser
IS_DRAWN = "image => image.complete && image.naturalWidth > 100"


def test_a_laid_out_sample_is_framed_on_the_phone_and_for_the_supplier(phone, second_phone, served, tmp_path):
    # headless Pacific whiteleg with black places, drawn; not one that anything was tuned on
    scene = draw_scene(request(101, "D65", card=True, dark=True))
    sample = tmp_path / "sample.jpg"
    sample.write_bytes(scene.jpeg)
    walk = Walk(phone.open())
    walk.sign_in()
    walk.docket("PO-19", "DN-1600")
    walk.vehicle(["2"])
    walk.begin_cartons()
    walk.carton(lot="L-16", photos={"sample": str(sample)})
    walk.carton(lot=None)
    walk.tap("decide-suggested")
    walk.sign()
    walk.put_away()
    page = walk.page
    page.get_by_test_id("sealed").wait_for(timeout=60_000)
    said = page.get_by_test_id("advice")
    said.first.wait_for(timeout=60_000)
    assert "pieces counted in the photo" in page.locator("body").inner_text()
    framed = page.locator("img[src*=overlay]").first
    wait_until(page, "() => [...document.querySelectorAll('img[src*=overlay]')].some(" + IS_DRAWN + ")")
    assert framed.get_attribute("alt")

    desk = second_phone.open()
    Walk(desk).sign_in("mira")
    (row,) = api(desk, "/api/deliveries?q=DN-1600")["rows"]
    desk.goto(f"{served.address}/desk/deliveries/{row['id']}")
    made = wait_for(lambda: desk.evaluate(
        """id => fetch(`/api/deliveries/${id}/evidence-links`, {method: 'POST', body: '{}', headers: {
            'Content-Type': 'application/json', 'X-CSRFToken': /csrftoken=([^;]+)/.exec(document.cookie)[1]}})
            .then(answer => answer.json())""", row["id"]))
    desk.goto(made["url"])
    marked = desk.locator("img[src*=overlay]").first
    marked.scroll_into_view_if_needed()
    wait_until(desk, "() => [...document.querySelectorAll('img[src*=overlay]')].some(" + IS_DRAWN + ")")
    assert "It decided nothing" in desk.locator("body").inner_text()
