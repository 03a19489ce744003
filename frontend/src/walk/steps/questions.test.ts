// What one tap says of a carton: no more than stood on the screen, and nothing that nobody looked at.
import { flushSync, mount, unmount, type Component } from "svelte";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { newCarton } from "../../state/start_document";
import type { Step, StepKind } from "../../state/steps";
import type { Change, Walk } from "../../state/walk.svelte";
import type { Carton, Specification } from "../../store/document";
import { delivery } from "../../testing/cast";
import { PARTICULARS } from "../words/names";
import Count from "./Count.svelte";
import Faults from "./Faults.svelte";
import Label from "./Label.svelte";
import type { StepProps } from "./props";
import Temperature from "./Temperature.svelte";
import UnderLid from "./UnderLid.svelte";
import Weigh from "./Weigh.svelte";

const WHITELEG = {
  id: "specification-1",
  species_code: "PNV",
  presentation: "HLSO",
  state: "raw",
  grade: "16/20",
  carton_net_g: 10_000,
  declared_glaze_percent: 10,
  origin: ["EC"],
  method: "farmed",
  market: "EU",
} as Specification;

Element.prototype.scrollIntoView = () => undefined; // jsdom has none
window.matchMedia ??= () => ({ matches: false }) as MediaQueryList;
let shown: ReturnType<typeof mount> | null = null;
async function clear(): Promise<void> {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
}
beforeEach(() => localStorage.clear());
afterEach(clear);

function ask(
  kind: StepKind,
  Screen: Component<StepProps>,
  { ordered = WHITELEG, cartons = [] as Carton[], position = 3, body = delivery() } = {},
) {
  body.lines[0]!.cartons = cartons;
  const carton = () => body.lines[0]!.cartons.find((one) => one.position === position) ?? null;
  const walk = {
    id: body.id,
    body,
    notes: {},
    line: () => body.lines[0]!,
    specification: () => ordered,
    carton,
    change: (change: Change) => change.document?.(body),
    changeCarton: (_line: string, _position: number, _said: string, edit: (one: Carton) => void) => edit(carton()!),
  } as unknown as Walk;
  const step: Step = {
    key: `${kind}~line-1~${position}`,
    kind,
    lineId: "line-1",
    position: kind === "count" ? null : position,
    state: "open",
  };
  const onDone = vi.fn();
  shown = mount(Screen, { target: document.body, props: { walk, step, onDone } });
  flushSync();
  return { body, onDone, text: () => (document.body.textContent ?? "").replace(/\s+/g, " ") };
}
function tap(...names: string[]): void {
  for (const name of names) {
    document.querySelector<HTMLButtonElement>(`[data-testid="${name}"]`)!.click();
    flushSync();
  }
}
function type(name: string, text: string): void {
  const field = document.querySelector<HTMLInputElement>(`[data-testid="${name}"]`)!;
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  flushSync();
}
const counted = (position: number, edit: Partial<Carton> = {}): Carton => ({ ...newCarton(position), looked_at: 40, ...edit });

test.each([
  ["frozen", { odour: "sound", odour_taken: "frozen" }],
  ["thawed", { odour: "sound", odour_taken: "thawed" }],
  ["not_taken", { odour: null, odour_taken: null }],
])("no fault, %s: the smell is signed for as it was taken", (way, told) => {
  const { body } = ask("faults", Faults, { cartons: [counted(3)] });
  tap(`all-sound-${way}`);
  expect(body.lines[0]!.cartons[0]).toMatchObject({ ...told, foreign_matter: "none", black_spot_score: 0 });
});

test("meat under a shell is not signed for without peeling; on peeled goods it lies open", async () => {
  const shellOn = ask("faults", Faults, { cartons: [counted(3)] });
  tap("all-sound-frozen");
  expect(shellOn.body.lines[0]!.cartons[0]!.pieces).toMatchObject({ black_spot: 0, broken: 0 });
  expect(shellOn.body.lines[0]!.cartons[0]!.pieces).not.toHaveProperty("black_spot_meat");
  await clear();
  const peeled = ask("faults", Faults, { ordered: { ...WHITELEG, presentation: "PD" }, cartons: [counted(3)] });
  tap("all-sound-frozen");
  expect(peeled.body.lines[0]!.cartons[0]!.pieces).toHaveProperty("black_spot_meat", 0);
});

test("none of the rest says nothing of the meat either", () => {
  const { body } = ask("faults", Faults, { cartons: [counted(3)] });
  tap("details", "rest-none", "segment-frozen", "segment-sound", "segment-none", "next");
  expect(body.lines[0]!.cartons[0]!.pieces).not.toHaveProperty("black_spot_meat");
});

test("the smell of one carton is not taken for that of the next", () => {
  ask("faults", Faults, { cartons: [counted(1, { odour: "sound", odour_taken: "frozen" }), counted(3)] });
  tap("details");
  expect(document.querySelector('[data-testid="segment-frozen"]')!.getAttribute("aria-pressed")).toBe("false");
});

test("marks settled on one carton are looked at with the pieces of the next, and named there", () => {
  const marks = { answer: "agree" as const, seen: { teeth_upper_only: true } };
  const { body, text } = ask("faults", Faults, { cartons: [counted(1, { marks }), counted(3)] });
  expect(text()).toContain("Species as in carton 1");
  tap("all-sound-frozen");
  expect(body.lines[0]!.cartons[1]!.marks).toEqual(marks);
});

test("each claim of the label that one tap affirms stands on the screen", () => {
  const { body, text } = ask("label", Label, { cartons: [counted(3)] });
  type("lot", "L-77");
  type("best-before", "31.3.2029");
  const before = text();
  tap("label-agrees");
  const label = body.lines[0]!.cartons[0]!.label!;
  const TOLD_BY = {
    name: "Whiteleg",
    scientific_name: "Penaeus vannamei",
    state: "raw",
    net_weight: "10 kg",
    lot: "Lot",
    date: "Best before",
    origin: "EC",
    method: "farmed",
  };
  expect(label.shows.length).toBeGreaterThan(8);
  for (const one of label.shows) expect(before, one).toContain((TOLD_BY as Record<string, string>)[one] ?? PARTICULARS[one]);
  for (const told of [label.grade, label.origin, "Penaeus vannamei", "headless, shell on"]) expect(before).toContain(told);
});

test("of two origins ordered, the label's own is asked", () => {
  const { body, text, onDone } = ask("label", Label, { ordered: { ...WHITELEG, origin: ["EC", "VN"] }, cartons: [counted(3)] });
  type("lot", "L-77");
  type("best-before", "31.3.2029");
  tap("label-agrees");
  expect(text()).toContain("Which origin the label shows is not chosen.");
  expect(onDone).not.toHaveBeenCalled();
  tap("segment-VN", "label-agrees");
  expect(body.lines[0]!.cartons[0]!.label).toMatchObject({ origin: "VN", lot: "L-77" });
});

test("what was typed of a label is still there after the answer was taken back", async () => {
  const body = delivery();
  ask("label", Label, { cartons: [counted(3)], body });
  type("lot", "L-77");
  type("best-before", "31.3.2029");
  tap("label-agrees");
  await clear();
  ask("label", Label, { cartons: [counted(3)], body });
  const typed = ["lot", "best-before"].map((name) => document.querySelector<HTMLInputElement>(`[data-testid="${name}"]`)!.value);
  expect(typed).toEqual(["L-77", "31.3.2029"]);
});

test("the docket's number is asked beside the count; an order says neither", () => {
  const body = delivery();
  Object.assign(body.lines[0]!, { order_line_id: "order-line", cartons_on_docket: 8 });
  const { text } = ask("count", Count, { body });
  expect(text()).toContain("The order was for 8 cartons.");
  type("pad-value", "6");
  tap("docket-other");
  type("pad-value", "7");
  tap("docket-says");
  expect(body.lines[0]).toMatchObject({ cartons_counted: 6, cartons_on_docket: 7 });
});

test("numbers far from the order's are asked again, though the docket says the same", () => {
  const body = delivery();
  Object.assign(body.lines[0]!, { order_line_id: "order-line", cartons_on_docket: 8 });
  const { text } = ask("count", Count, { body });
  type("pad-value", "99999");
  tap("docket-same");
  expect(body.lines[0]!.cartons_counted).toBeNull();
  expect(text()).toContain("99999 counted, 99999 on the docket, 8 ordered.");
  tap("count-again");
  type("pad-value", "8");
  tap("docket-same");
  expect(body.lines[0]).toMatchObject({ cartons_counted: 8, cartons_on_docket: 8 });
});

test("a unit is taken over from the sample before it, not from another day's scale", async () => {
  localStorage.setItem("underlid-weight-unit", "kg");
  const unit = () => document.querySelector('[aria-pressed="true"]')!.textContent;
  ask("weigh", Weigh, { cartons: [counted(3)] });
  expect(unit()).toBe("g");
  await clear();
  const sample = {
    pieces: 40,
    weight: { entered: "2.2", unit: "lb" as const },
    weight_is: "deglazed" as const,
    largest: null,
    smallest: null,
  };
  ask("weigh", Weigh, { cartons: [counted(1, { sample }), counted(3)] });
  expect(unit()).toBe("lb");
});

test("liner, frost and refreezing are drawn, each answer its own", () => {
  ask("lid", UnderLid, { cartons: [counted(3)] });
  tap("details");
  const drawn = [...document.querySelectorAll("[data-testid^=drawn-]")];
  expect(drawn.map((one) => (one as HTMLElement).dataset.testid)).toEqual(
    ["liner-closed", "liner-open", "liner-torn", "liner-missing", "frost-none", "frost-some", "frost-heavy", "refreezing-ice_pool"]
      .concat(["refreezing-deformed", "refreezing-clumped"])
      .map((name) => `drawn-${name}`),
  );
  expect(new Set(drawn.map(({ innerHTML }) => innerHTML)).size).toBeGreaterThanOrEqual(drawn.length - 1);
});

test.each([
  ["label", Label, ["label"]],
  ["lid", UnderLid, ["top", "under_liner"]],
  ["temperature", Temperature, ["temperature"]],
  ["faults", Faults, ["sample"]],
] as [StepKind, Component<StepProps>, string[]][])("at %s a photo is taken where the thing is seen", (kind, Screen, purposes) => {
  ask(kind, Screen, { cartons: [counted(3)] });
  for (const purpose of purposes) expect(document.querySelector(`[data-testid="photo-${purpose}"]`), purpose).not.toBeNull();
});

test("cautions: the two most serious stand open, the rest is behind a tap", () => {
  ask("temperature", Temperature, { cartons: [counted(3)] });
  const caution = document.querySelector('[data-testid="caution-probing"]')!;
  expect([...caution.querySelectorAll(":scope > ul > li")].map((one) => one.textContent?.trim())).toEqual([
    expect.stringContaining("Clean and sanitise the probe"),
    expect.stringContaining("block clamped"),
  ]);
  expect(caution.querySelector("details")!.open).toBe(false);
});
