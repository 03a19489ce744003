import { flushSync, mount, unmount } from "svelte";
import { afterEach, expect, test, vi } from "vitest";
import Worksheet from "./Worksheet.svelte";
import type { CheckRow, Sheet } from "../../trade/types";

const cold: CheckRow = {
  check: "temp.reject",
  code: "TEMP-REJECT",
  edition: "",
  effect: "hazard",
  source: "",
  words: "",
  name: "product temperature, refusal",
  number: "-9.5",
  unit: "°C",
  comparison: "at most",
  limit: "-12",
  state: "beyond",
  answer: "past the limit",
  severity: "critical",
  leads_to: "carton defective, line rejected",
  note: "CXC 8-1976 §4 (from memory, look it up before relying on it)",
};
const none = { made: [], open: [] };
const sheet: Sheet = {
  limits: "Documented default, version 1",
  vehicle: { entries: [], checks: { made: [], open: ["vehicle air"] } },
  lines: [
    {
      number: 1,
      name: "Whiteleg 16/20",
      ordered: [{ name: "size", entered: "16/20" }],
      entries: [{ name: "cartons counted", entered: "20" }],
      cartons: [
        {
          position: 3,
          entries: [{ name: "product temperature", entered: "14,9 °F" }],
          sums: [{ name: "product temperature", sum: "(14.9 - 32) x 5 / 9 = -9.5 °C", value: "-9.5" }],
          checks: { made: [cold], open: ["smell"] },
          notes: [],
          is_defective: true,
          is_beyond_chance: true,
          because: ["product temperature, refusal"],
        },
      ],
      sums: [],
      checks: none,
      notes: [],
      plans: [{ name: "house plan, table for 20 cartons", open: "3", accept: "0", source: "habit" }],
      tally: {
        opened: "1",
        planned: "3",
        acceptance: "0",
        defective: "1",
        bad: "1",
        shown: "1",
        rejection: "2",
        total: "6",
        last: "1",
        answer: "past the limit",
        source: "CXS 92-1981 §9",
      },
      must: [{ name: "liner", answer: "done", reason: "" }],
      steps: [
        { letter: "a", when: "a hazard", suggestion: "Hold", answer: "no", because: "" },
        { letter: "b", when: "any other critical finding", suggestion: "Reject", answer: "yes", because: "Carton 3: too warm." },
      ],
      suggestion: "Reject",
      agrees: false,
      allowances: [],
      split: "0 accepted, 20 refused, 0 held",
      decision: { words: "Hold", split: "0 accepted, 0 refused, 20 held", reason: "for the inspector", departs: "yes" },
    },
  ],
};

let shown: ReturnType<typeof mount> | null = null;
afterEach(() => {
  if (shown) void unmount(shown);
  shown = null;
  vi.unstubAllGlobals();
});

async function open(answer: Response): Promise<[HTMLElement, ReturnType<typeof vi.fn>]> {
  const fetched = vi.fn(async () => answer.clone());
  vi.stubGlobal("fetch", fetched);
  shown = mount(Worksheet, { target: document.body, props: { delivery: "d1" } });
  flushSync();
  expect(fetched).not.toHaveBeenCalled();
  const details = document.querySelector("details")!;
  details.open = true;
  details.dispatchEvent(new Event("toggle"));
  await vi.waitFor(() => {
    flushSync();
    expect(details.textContent).not.toMatch(/Reading the worksheet/);
  });
  return [details, fetched];
}

test("it is asked for when it is opened, and shows entry, sum, check, tally, steps and decision", async () => {
  const [details, fetched] = await open(Response.json(sheet));
  expect(fetched).toHaveBeenCalledOnce();
  const told = details.textContent!.replace(/\s+/g, " ");
  for (const words of [
    "Documented default, version 1",
    "Not checked: vehicle air.",
    "14,9 °F",
    "(14.9 − 32) x 5 / 9 = −9.5 °C",
    "critical: carton defective, line rejected",
    "CXC 8-1976 §4",
    "✕ defective",
    "Defective, because of: product temperature, refusal.",
    "1 with a fault, 1 of them bad (1 beyond chance); the plan accepts at most 0",
    "any other critical finding: reject?",
    "Suggestion: Reject",
    "another edition",
    "Decided: Hold",
    "for the inspector",
  ]) {
    expect(told).toContain(words);
  }
  const cells = [...details.querySelectorAll("tr td")].map((cell) => cell.textContent!.replace(/\s+/g, " ").trim());
  expect(cells.slice(0, 2)).toEqual(["−9.5 °C", "at most −12 °C"]);
});

test("a refusal is told in the server's sentence", async () => {
  const sentence = "There is nothing at this address. Nothing was changed. Go back and choose from the list.";
  const [details] = await open(Response.json({ code: "NOT-FOUND", sentence, facts: {} }, { status: 404 }));
  expect(details.textContent).toContain(sentence);
});
