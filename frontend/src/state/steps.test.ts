import { expect, test } from "vitest";
import { delivery } from "../testing/cast";
import { EMPTY_NOTES } from "../store/documents";
import type { Specification } from "../store/document";
import { ageInWords, coldClock, isoWithOffset } from "./clock.svelte";
import { newCarton } from "./start_document";
import { CARTON_STEPS, nextOpen, positionsOf, progressOf, stepKey, stepsOf } from "./steps";

const shellOn = { presentation: "HLSO" } as Specification;
const peeled = { presentation: "PD" } as Specification;
const sampling = { plan: "house" as const, layers: 1, seed: "s", n: 2, acceptance: 0, positions: [3, 5] };

function document() {
  const body = delivery();
  body.lines[0]!.cartons_counted = 6;
  body.lines[0]!.sampling = sampling;
  return body;
}

test("the questions follow the door: docket, count, vehicle, draw, cartons, verdict, signatures", () => {
  const kinds = stepsOf(document(), EMPTY_NOTES, () => shellOn).map(({ kind }) => kind);
  expect(kinds).toEqual(["docket", "air", "count", "load", "draw", ...CARTON_STEPS, ...CARTON_STEPS, "decide", "sign"]);
});

test("peeled prawns are not asked for species marks (CV-7-33)", () => {
  expect(stepsOf(document(), EMPTY_NOTES, () => peeled).some(({ kind }) => kind === "marks")).toBe(false);
});

test("no carton counted means no carton to open", () => {
  const body = document();
  body.lines[0]!.cartons_counted = 0;
  expect(stepsOf(body, EMPTY_NOTES, () => shellOn).map(({ kind }) => kind)).toEqual(["docket", "air", "count", "load", "decide", "sign"]);
});

test("a carton opened besides the drawn ones gets its questions too", () => {
  const body = document();
  body.lines[0]!.cartons.push(newCarton(6));
  expect(positionsOf(body.lines[0]!)).toEqual([3, 5, 6]);
});

test("an absent answer stays open, a left one is skipped, and neither is answered", () => {
  const notes = { ...EMPTY_NOTES, skipped: ["air"] };
  const byKind = new Map(stepsOf(document(), notes, () => shellOn).map((step) => [step.kind, step.state]));
  expect([byKind.get("air"), byKind.get("load"), byKind.get("count")]).toEqual(["skipped", "open", "answered"]);
});

test("the next question is the next open one ahead, then the first left behind", () => {
  const steps = stepsOf(document(), EMPTY_NOTES, () => shellOn);
  expect(nextOpen(steps, "load")?.key).toBe(stepKey("label", "line-1", 3));
  expect(nextOpen(steps, "sign")?.key).toBe("air");
  expect(
    nextOpen(
      steps.map((step) => ({ ...step, state: "answered" as const })),
      null,
    ),
  ).toBeNull();
});

// CV-12-69: warn at 10, alarm at 20 minutes
test("the out-of-cold clock warns at 10 and alarms at 20 minutes", () => {
  const out = "2026-11-25T06:00:00Z";
  const at = (minutes: number) => coldClock(out, Date.parse(out) + minutes * 60_000).stage;
  expect([0, 9.99, 10, 19.99, 20].map(at)).toEqual(["fine", "fine", "warn", "warn", "alarm"]);
});

test("ages are said in minutes, hours, days", () => {
  expect([30, 240, 7_200, 200_000].map((seconds) => ageInWords(0, seconds * 1000))).toEqual(["under 1 min", "4 min", "2 h", "2 days"]);
});

test("times keep the device's offset and name the same moment", () => {
  const at = new Date("2026-11-25T06:10:00Z");
  expect(isoWithOffset(at)).toMatch(/^2026-11-2\dT\d\d:10:00[+-]\d\d:\d\d$/);
  expect(Date.parse(isoWithOffset(at))).toBe(at.getTime());
});

test("photos are offered and never demanded", () => {
  const photos = stepsOf(document(), EMPTY_NOTES, () => shellOn).filter(({ kind }) => kind === "photos");
  expect(photos.map(({ state }) => state)).toEqual(["skipped", "skipped"]);
});

test("what is left is told up to the next draw, and cartons that came in addition are named", () => {
  const body = document();
  const progress = () =>
    progressOf(
      stepsOf(body, EMPTY_NOTES, () => shellOn),
      body.lines,
    );
  expect(progress()).toMatchObject({ kind: "cartons", cartons: 2, added: 0 });
  const before = progress().left;
  body.lines[0]!.sampling = { ...sampling, more: [1, 2] };
  expect(progress()).toMatchObject({ kind: "added", added: 2, cartons: 4 });
  expect(progress().left).toBeGreaterThan(before);
  body.lines[0]!.sampling = null;
  // air, load, and the draw itself: what it will bring is not counted before it is known
  expect(progress()).toMatchObject({ kind: "draw", left: 3 });
});
