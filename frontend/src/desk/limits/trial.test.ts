import { expect, test } from "vitest";
import type { Trial } from "../../trade/types";
import { changeWords, trialRows } from "./trial";

const side = { refused: 2, held: 0, opened: 9, bad: 1, known_bad: 1, known_caught: 1, missed: null, suggestions: { accept: 2, reject: 1 } };
const change = {
  delivery_id: "d",
  docket_number: "DN-1",
  arrived_at: "2026-11-25T07:10:00Z",
  line: 1,
  before: "reject",
  after: "accept_with_allowance",
  refused_before: 20,
  refused_after: 1,
} as const;
const trial: Trial = {
  deliveries: 3,
  lines: 3,
  not_told: 0,
  before: side,
  after: { ...side, missed: { about: 3.4, low: 0.6, high: 9.5, closed: 40 } },
  changed: [change],
  changed_count: 1,
};

test("refused and caught stand beside each other, what is estimated with its interval", () => {
  const rows = Object.fromEntries(trialRows(trial).map(({ what, own, tried }) => [what, [own, tried]]));
  expect(rows["Cartons refused"]).toEqual(["2", "2"]);
  expect(rows["Bad ones refused or held, where all were opened"]).toEqual(["1 of 1", "1 of 1"]);
  expect(rows["Bad ones taken unopened, estimated"]).toEqual(["nothing was taken unopened", "3 of 40 (95 %: 1 to 10)"]);
  expect(Object.keys(rows)).not.toContain("Lines: hold");
});

test("a changed line says from what to what", () => {
  expect(changeWords(change)).toBe("reject, 20 cartons refused → accept with allowance, 1 carton refused");
});
