import { expect, test, vi } from "vitest";
import type { ThermometerRow } from "../trade/types";
import { delivery } from "../testing/cast";
import { session } from "./session.svelte";
import { newCarton } from "./start_document";
import { allowedInIce, likelyThermometer, rememberThermometer, standingOf } from "./thermometers";

const row = (edit: Partial<ThermometerRow>): ThermometerRow => ({
  id: "1",
  site_id: "s",
  name: "Probe A",
  accuracy_c: 0.5,
  in_use: true,
  last_checked_at: null,
  last_checked_on: "2026-11-12",
  last_check_c: 0.1,
  check_due_on: "2026-11-28",
  ...edit,
});

// Common practice, no source: within 1 °C of 0 °C in ice, due a set number of days later (CV-5-56, CV-5-60)
test.each([
  [row({}), true, "checked 12 Nov, due in 3 days"],
  [row({ check_due_on: "2026-11-26" }), true, "checked 12 Nov, due tomorrow"],
  [row({ check_due_on: "2026-11-25" }), true, "checked 12 Nov, due today"],
  [row({ check_due_on: "2026-11-24" }), false, "check overdue since 24 Nov"],
  [row({ check_due_on: null }), true, "checked 12 Nov, due in 17 days"], // 30 days after the check
  [row({ last_check_c: -1.4 }), false, "failed in ice on 12 Nov: read −1.4 °C"],
  [row({ last_check_c: null }), false, "no check in ice on record"],
  [row({ last_checked_on: "no day" }), false, "no check in ice on record"],
])("the standing of a thermometer is said in words: %#", (one, isTrusted, words) => {
  expect(standingOf(one, "2026-11-25")).toEqual({ isTrusted, words });
});

test.each([
  [0.5, 0.5], // stricter than the documented 1.0 °C
  [1.5, 1.0], // laxer: the documented one
  [null, 1.0],
])("a group's own limit in ice of %s lets a check read %s °C off", (bound, allowed) => {
  const sets = [
    { id: "old", limits: [{ code: "thermometer.ice_point", bound: 0.1 }] },
    { id: "now", limits: [{ code: "thermometer.ice_point", bound }] },
  ];
  const known = vi
    .spyOn(session, "reference", "get")
    .mockReturnValue({ limit_sets: sets, current_limits_id: "now" } as unknown as typeof session.reference);
  const set = vi
    .spyOn(session, "limitSet")
    .mockImplementation((id) => (sets.find((one) => one.id === id) ?? null) as ReturnType<typeof session.limitSet>);
  expect(allowedInIce()).toBe(allowed);
  expect(standingOf(row({ last_check_c: 0.8 }), "2026-11-25").isTrusted).toBe(allowed === 1.0);
  set.mockRestore();
  known.mockRestore();
});
test("before any reference data are here a check is held to the documented limit", () => {
  expect(allowedInIce()).toBe(1.0);
});

test("the probe offered is the delivery's last one, else the phone's last, else the only one", () => {
  const rows = [row({ id: "a", site_id: "site-1" }), row({ id: "b", site_id: "site-1" }), row({ id: "c", site_id: "other" })];
  const known = vi.spyOn(session, "reference", "get").mockReturnValue({ thermometers: rows } as unknown as typeof session.reference);
  const body = delivery();
  rememberThermometer(null);
  expect(likelyThermometer(body)).toBeNull();
  rememberThermometer("a");
  expect(likelyThermometer(body)).toBe("a");
  const carton = newCarton(3);
  carton.temperature = { product: { entered: "-19", unit: "C" }, method: "core", thermometer_id: "b" };
  body.lines[0]!.cartons.push(carton);
  expect(likelyThermometer(body)).toBe("b");
  carton.temperature.thermometer_id = null; // named none on purpose
  expect(likelyThermometer(body)).toBeNull();
  known.mockReturnValue({ thermometers: rows.slice(1) } as unknown as typeof session.reference);
  rememberThermometer("c");
  expect(likelyThermometer(delivery())).toBe("b");
});
