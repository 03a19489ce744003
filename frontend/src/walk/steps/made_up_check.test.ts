// A check that nobody has written code for: the phone judges it as the server does, and asks it.
import madeUp from "@fixtures/made_up_checks.json";
import vectors from "@fixtures/vectors/verdict.json";
import { flushSync, mount, unmount } from "svelte";
import { afterEach, expect, test, vi } from "vitest";
import type { Walk } from "../../state/walk.svelte";
import type { Step } from "../../state/steps";

type Table = { default: Record<string, unknown[]> };
vi.mock("@trade-data/checks.json", async (original) => {
  const { checks } = ((await original()) as Table).default;
  return { default: { checks: [...checks!, ...(await import("@fixtures/made_up_checks.json")).default.checks] } };
});
vi.mock("@trade-data/limits.json", async (original) => {
  const shipped = ((await original()) as Table).default;
  return { default: { ...shipped, limits: [...shipped.limits!, ...(await import("@fixtures/made_up_checks.json")).default.limits] } };
});
vi.mock("@trade-data/wording_en.json", async (original) => {
  const shipped = ((await original()) as { default: Record<string, object> }).default;
  const added = Object.entries((await import("@fixtures/made_up_checks.json")).default.words);
  return { default: { ...shipped, ...Object.fromEntries(added.map(([group, own]) => [group, { ...shipped[group], ...own }])) } };
});

import { newCarton } from "../../state/start_document";
import { stepsOf } from "../../state/steps";
import { EMPTY_NOTES } from "../../store/documents";
import type { Carton, Specification } from "../../store/document";
import { delivery } from "../../testing/cast";
import { DEFAULT_LIMITS } from "../../trade/limits";
import { limitName } from "../../desk/limits/editing";
import { explain } from "../../trade/reasons";
import { judgeDocument } from "../../trade/verdict";
import { answerOf } from "../words/steps";
import Faults from "./Faults.svelte";
import UnderLid from "./UnderLid.svelte";

const { base } = vectors as unknown as {
  base: { document: { lines: { cartons: Record<string, unknown>[] }[] }; specifications: unknown[] };
};
const SOUND = { slumped: "none", pieces: { black_spot: 0, dehydrated: 0, broken: 0, soft: 0, cracked: 0 } };

test.each(madeUp.cases.map((each) => [each.id, each] as const))("judged as on the server: %s", (_, each) => {
  const document = structuredClone(base.document);
  document.lines[0]!.cartons.forEach((carton, i) => Object.assign(carton, i === 0 ? each.patch : SOUND));
  const line = judgeDocument(document, base.specifications, DEFAULT_LIMITS).lines[0]!;
  expect([line.suggestion, line.reasons.map(({ text }) => text)]).toEqual([each.suggestion, each.reasons]);
  for (const reason of line.reasons) {
    expect(explain(reason).numbers).not.toBe("");
    expect(reason.limit).toSatisfy((code: string) => code === "defective_cartons" || limitName(code) !== code);
  }
  expect(line.cartons[0]!.checks).toMatchObject(each.checks);
});

Element.prototype.scrollIntoView = () => undefined; // jsdom has none
let shown: ReturnType<typeof mount> | null = null;
afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
});

function walkOf(presentation: string, carton: Carton): Walk {
  return {
    body: { ...delivery(), limits_id: "l" },
    line: () => delivery().lines[0],
    specification: () => ({ presentation }) as Specification,
    carton: () => carton,
    changeCarton: (_line: string, _position: number, _said: string, edit: (one: Carton) => void) => edit(carton),
  } as unknown as Walk;
}
function ask(kind: "lid" | "faults", presentation = "HLSO"): { carton: Carton; walk: Walk; step: Step; text: () => string } {
  const carton = { ...newCarton(3), looked_at: 40 };
  const step: Step = { key: kind, kind, lineId: "line-1", position: 3, state: "open" };
  const walk = walkOf(presentation, carton);
  shown = mount(kind === "lid" ? UnderLid : Faults, { target: document.body, props: { walk, step, onDone: () => undefined } });
  flushSync();
  return { carton, walk, step, text: () => (document.body.textContent ?? "").replace(/\s+/g, " ") };
}
function tap(...names: string[]): void {
  for (const name of names) {
    document.querySelector<HTMLButtonElement>(`[data-testid="${name}"]`)!.click();
    flushSync();
  }
}

test("it stands in the list that is sound in one tap", () => {
  const { carton, text, walk, step } = ask("lid");
  expect(text()).toContain("Slumped blocks blocks keep their shape");
  tap("all-sound");
  expect(carton).toMatchObject({ slumped: "none", liner: "closed", frost: "none", refreezing: [] });
  expect(answerOf(walk, { ...step, state: "answered" })).toBe("all sound");
});

test("it is asked among the others, and Next names it while it has no answer", () => {
  const { carton, text, walk, step } = ask("lid");
  tap("details", "segment-closed", "segment-heavy", "sign-none", "next");
  expect(text()).toContain("Slumped blocks has no answer yet. What you entered is still here.");
  expect(carton.liner).toBeNull();
  tap("segment-most", "next");
  expect(carton).toMatchObject({ slumped: "most", frost: "heavy" });
  expect(answerOf(walk, { ...step, state: "answered" })).toBe("frost: heavy, slumped blocks: most blocks slumped");
});

test("the step stays open until it is answered", () => {
  const body = delivery();
  const carton = { ...newCarton(3), liner: "closed" as const, frost: "none" as const, refreezing: [] };
  Object.assign(body.lines[0]!, { cartons_counted: 6, cartons: [carton] });
  const lid = () => stepsOf(body, EMPTY_NOTES, () => null).find(({ kind }) => kind === "lid")!.state;
  expect(carton).toHaveProperty("slumped", null);
  expect(lid()).toBe("open");
  Object.assign(carton, { slumped: "some" });
  expect(lid()).toBe("answered");
});

test("a count is asked for the goods that have it", () => {
  const { carton, text } = ask("faults");
  tap("details", "rest-none", "segment-frozen", "segment-sound", "segment-none", "next");
  expect(text()).toContain("Cracked");
  expect(carton.pieces).toMatchObject({ cracked: 0, broken: 0 });
});

test("peeled goods are not asked for it", () => {
  const { carton, text } = ask("faults", "PD");
  tap("details");
  expect(text()).not.toContain("Cracked");
  tap("rest-none", "segment-frozen", "segment-sound", "segment-none", "next");
  expect(carton.pieces).not.toHaveProperty("cracked");
});
