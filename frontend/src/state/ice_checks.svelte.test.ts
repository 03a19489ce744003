import { beforeEach, expect, test, vi } from "vitest";
import { oldestFirst } from "../store/outbox";
import type { ThermometerRow } from "../trade/types";
import { emptyPhone, delivery, restart } from "../testing/cast";
import { thermometerSnapshot } from "../trade";
import { FiledChecks, filedChecks } from "./ice_checks.svelte";
import { onTop } from "./thermometers";
import { session } from "./session.svelte";
import { rememberThermometer, standingOf, thermometerInIce, thermometersAt } from "./thermometers";
import { waiting } from "./waiting.svelte";

const AT = Date.parse("2026-11-25T06:10:00Z");
const DAY = new Date(AT - new Date(AT).getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
const row = (edit: Partial<ThermometerRow> = {}): ThermometerRow => ({
  id: "probe-1",
  site_id: "site-1",
  name: "Probe A",
  accuracy_c: 0.5,
  in_use: true,
  last_checked_on: "2026-09-12",
  last_check_c: 0.1,
  check_due_on: "2026-10-12",
  last_checked_at: null,
  ...edit,
});

beforeEach(async () => {
  await emptyPhone();
  rememberThermometer(null);
  vi.spyOn(waiting, "nudge").mockReturnValue(undefined);
  vi.spyOn(session, "me", "get").mockReturnValue({ id: 7, name: "Mara", role: "receiver", sites: [] });
});

test("a filed check waits for the server and counts at once, also after a kill", async () => {
  const filed = new FiledChecks();
  await filed.file("probe-1", { entered: "32,9", unit: "F" }, { at: AT });
  const [entry] = await oldestFirst();
  expect(entry).toMatchObject({
    kind: "check",
    body: { thermometer_id: "probe-1", reading: { entered: "32,9", unit: "F" }, person: { person_id: 7, name: "Mara" } },
  });
  expect(Date.parse((entry!.body as { at: string }).at)).toBe(AT);
  await restart();
  const after = new FiledChecks();
  after.start();
  await vi.waitFor(() => expect(onTop(row(), after).last_checked_on).toBe(DAY));
  // 32.9 °F is 0.5 °C; due 30 days later (common practice, no source, CV-5-60)
  expect(onTop(row(), after).last_check_c).toBeCloseTo(0.5, 12);
  expect(onTop(row(), after).check_due_on).toBe(new Date(Date.parse(DAY) + 30 * 86_400_000).toISOString().slice(0, 10));
  expect(onTop(row({ id: "probe-2" }), after)).toEqual(row({ id: "probe-2" }));
});

test("the later check counts: by its moment, of a noted one by its day", async () => {
  const filed = new FiledChecks();
  await filed.file("probe-1", { entered: "0.3", unit: "C" }, { at: AT });
  const reading = (edit: Partial<ThermometerRow>) => onTop(row({ last_check_c: 0.9, ...edit }), filed).last_check_c;
  expect(reading({ last_checked_on: DAY, last_checked_at: "2026-11-25T06:09:59+00:00" })).toBe(0.3);
  expect(reading({ last_checked_on: DAY, last_checked_at: "2026-11-25T06:10:00+00:00" })).toBe(0.9);
  expect(reading({ last_checked_on: DAY, last_checked_at: "2026-11-25T06:10:01+00:00" })).toBe(0.9);
  expect(reading({ last_checked_on: DAY })).toBe(0.3);
  expect(reading({ last_checked_on: "2026-12-24" })).toBe(0.9);
  expect(onTop(row({ last_checked_on: "2026-12-24", last_check_c: null }), filed).last_check_c).toBe(0.3);
});

test("filing under the same id twice files once; for another thermometer it is another check", async () => {
  const filed = new FiledChecks();
  const once = { id: "0199aaaa-0000-7000-8000-000000000001", at: AT };
  await filed.file("probe-1", { entered: "0.3", unit: "C" }, once);
  await filed.file("probe-1", { entered: "0.3", unit: "C" }, once);
  expect(await oldestFirst()).toHaveLength(1);
  await filed.file("probe-2", { entered: "0.3", unit: "C" }, once);
  expect(new Set((await oldestFirst()).map(({ id }) => id)).size).toBe(2);
});

test("a check taken off no longer counts", async () => {
  const filed = new FiledChecks();
  await filed.file("probe-1", { entered: "0.3", unit: "C" }, { at: AT });
  await filed.discard((await oldestFirst())[0]!.body as never);
  expect(onTop(row(), filed)).toEqual(row());
  expect(await oldestFirst()).toEqual([]);
});

test("a reading taken after the check carries it, and the standing says so", async () => {
  vi.spyOn(session, "reference", "get").mockReturnValue({ thermometers: [row(), row({ id: "probe-2", name: "Probe B" })] } as never);
  const now = Date.now();
  expect(standingOf(thermometersAt("site-1")[0]!).words).toBe("check overdue since 12 Oct");
  await filedChecks.file("probe-1", { entered: "-0,4", unit: "C" }, { at: now });
  const mine = thermometersAt("site-1")[0]!;
  expect(standingOf(mine)).toMatchObject({ isTrusted: true, words: expect.stringContaining("due in 30 days") });
  expect(thermometerSnapshot(mine).ice_point).toEqual({ entered: "-0.4", unit: "C" });
  await filedChecks.file("probe-1", { entered: "1,1", unit: "C" }, { at: now + 1000 });
  expect(standingOf(thermometersAt("site-1")[0]!)).toMatchObject({ isTrusted: false, words: expect.stringContaining("failed in ice") });
});

test("the thermometer in the ice is the one chosen last, else the likely one", () => {
  vi.spyOn(session, "reference", "get").mockReturnValue({ thermometers: [row(), row({ id: "probe-2" })] } as never);
  expect(thermometerInIce(delivery())).toBeNull();
  rememberThermometer("probe-2");
  expect(thermometerInIce(delivery())).toBe("probe-2");
  vi.spyOn(session, "reference", "get").mockReturnValue({ thermometers: [row()] } as never);
  expect(thermometerInIce(delivery())).toBe("probe-1");
});
