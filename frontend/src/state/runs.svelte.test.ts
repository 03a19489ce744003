import { beforeEach, expect, test, vi } from "vitest";
import { emptyPhone, restart } from "../testing/cast";
import { keep } from "../store/key_value";
import { database } from "../store/upgrades";
import { endSignal } from "./end_signal";
import { countdownShown, Runs, type Place } from "./runs.svelte";

const place: Place = { delivery_id: "d", purpose: "sample", line_id: "line-1", position: 3 };

beforeEach(emptyPhone);

/** As after a kill: a new page reads what was kept. */
async function afterRestart(): Promise<Runs> {
  await restart();
  const again = new Runs();
  again.start()();
  await vi.waitFor(() => expect(again.isRead).toBe(true));
  return again;
}

test("a killed browser comes back to the same card, with the same moment at which the time is up", async () => {
  const runs = new Runs();
  await runs.begin(place);
  await runs.note(place, "sieve", { entered: "600", unit: "g" });
  await runs.turnTo(place, 2);
  await runs.startTimer(place, 120);
  const endsAt = runs.of(place)!.ends_at!;
  const again = await afterRestart();
  expect(again.of(place)).toMatchObject({ at: 2, ends_at: endsAt, readings: { sieve: { entered: "600", unit: "g" } } });
});

test("a time that ran out while the page was gone is said once when it is back", async () => {
  const signal = vi.spyOn(endSignal, "give").mockImplementation(() => undefined);
  const runs = new Runs();
  await runs.begin(place);
  await runs.startTimer(place, 120);
  const again = await afterRestart();
  const over = again.of(place)!.ends_at! + 20_000;
  again.tick(over);
  again.tick(over + 1000);
  expect(signal).toHaveBeenCalledTimes(1);
  expect(countdownShown(again.of(place)!.ends_at!, over)).toBe("+0:20");
});

test("the rest is shown in minutes and seconds, never less than is left", () => {
  expect([120_000, 119_001, 61_000, 1, 0, -999, -65_000].map((left) => countdownShown(left, 0))).toEqual([
    "2:00",
    "2:00",
    "1:01",
    "0:01",
    "+0:00",
    "+0:00",
    "+1:05",
  ]);
});

test("two cartons drain side by side, the next to end first; leaving one leaves the other", async () => {
  const runs = new Runs();
  const other = { ...place, position: 5 };
  await runs.begin(place);
  await runs.begin(other);
  await runs.startTimer(place, 120);
  await runs.startTimer(other, 60);
  expect(runs.timed.map(({ position }) => position)).toEqual([5, 3]);
  await runs.end(other);
  expect((await afterRestart()).timed.map(({ position }) => position)).toEqual([3]);
});

test("signing a delivery ends its procedures, another day forgets what was left lying", async () => {
  const runs = new Runs();
  await runs.begin(place);
  await runs.begin({ ...place, delivery_id: "other" });
  await runs.endAllOf("d");
  expect(runs.all.map(({ delivery_id }) => delivery_id)).toEqual(["other"]);
  await keep(
    "procedures",
    runs.all.map((run) => ({ ...run, begun_at: Date.now() - 13 * 3_600_000 })),
  );
  expect((await afterRestart()).all).toEqual([]);
});

test("a full phone says so, and the time runs on while the page is open", async () => {
  const runs = new Runs();
  await runs.begin(place);
  const db = await database();
  vi.spyOn(db, "transaction").mockImplementation(() => {
    throw new DOMException("no space", "QuotaExceededError");
  });
  await runs.startTimer(place, 120);
  expect(runs.failure).toContain("Free some space");
  expect(runs.of(place)!.ends_at).not.toBeNull();
});
