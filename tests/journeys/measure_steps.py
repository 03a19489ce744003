"""Each tap of a clean delivery, from the finger to the next picture, on a processor slowed four times.

Event Timing (W3C): the duration of an event runs from its hardware time stamp to the next paint after its handlers,
in steps of 8 ms. Slowed as Lighthouse does for a phone. The goal of 100 ms is the house's own (common practice, no
source); what is asserted leaves room for a busy machine, the table is printed with its load. Run by hand, on a quiet
machine: ``pytest tests/journeys/measure_steps.py -s``.
"""
import os
import statistics
import sys

import pytest

from tests.journeys.walk import Walk

pytestmark = [pytest.mark.browser, pytest.mark.slow]

GOAL_MS, ROOM_MS = 100, 250
OBSERVE = """window.__events = [];
new PerformanceObserver(list => {
  for (const one of list.getEntries()) {
    if (one.interactionId) window.__events.push([one.startTime, one.interactionId, one.duration]);
  }
}).observe({ type: 'event', durationThreshold: 16, buffered: true });"""


class Timed:
    """Notes before each tap on which step it is made."""

    def look(self, page) -> None:
        page.evaluate("window.__events.push([performance.now(),"
                      " decodeURIComponent(location.pathname).split('/').slice(3).join('/').split('~')[0] || 'home'])")


def test_every_step_is_answered_within_a_tenth_of_a_second(phone):
    page = phone.open()
    walk = Walk(page, Timed())
    walk.sign_in()
    page.add_init_script(OBSERVE)
    page.reload()
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": 4})
    walk.docket("PO-25", "DN-190")
    walk.vehicle(["2"])
    walk.begin_cartons()
    walk.carton(lot="L-19")
    walk.carton(lot=None)
    walk.tap("decide-suggested")
    page.wait_for_timeout(500)
    longest: dict[str, dict[int, float]] = {}
    step = "home"
    for entry in sorted(page.evaluate("window.__events"), key=lambda entry: entry[0]):
        if len(entry) == 2:
            step = entry[1]
        else:
            taps = longest.setdefault(step, {})
            taps[entry[1]] = max(taps.get(entry[1], 0), entry[2])
    every = sorted(duration for taps in longest.values() for duration in taps.values())
    table = [f"{name:12} {len(taps):3} taps, longest {max(taps.values()):4.0f} ms" for name, taps in longest.items()]
    p95 = every[int(0.95 * (len(every) - 1))]
    sys.stdout.write("\n".join(["", f"load {os.getloadavg()[0]:.1f}", *table,
                                f"all: {len(every)} taps of 16 ms or more, median {statistics.median(every):.0f} ms, "
                                f"95th percentile {p95:.0f} ms, longest {every[-1]:.0f} ms (goal {GOAL_MS} ms)", ""]))
    assert {"air", "count", "draw", "label", "lid", "temperature", "pieces", "weigh", "faults", "marks"} <= set(longest)
    assert p95 < ROOM_MS
