/** For tests of the desk: a signed delivery of our own invention, and a screen shown with the answers it asks for. */
import { flushSync, mount, unmount, type Component } from "svelte";
import { vi } from "vitest";
import limits from "@trade-data/limits.json";
import type { Me } from "../trade/types";

export const site = { id: "s1", name: "Harbour", code: "HARB", timezone: "Australia/Sydney", currency: "AUD", market: "ANZ" as const };
export const me: Me = { id: 1, name: "Ada", role: "group_operations", sites: [site, { ...site, id: "s2", name: "Hill" }] };
export const basis = { source: "CXC 8-1976 §4", known: "read", cv: "CV-5-20", words: "No package warmer than -12 °C." };
export const reason = {
  code: "TEMP-REJECT",
  severity: "critical",
  carton: 3,
  measured: -9.5,
  unit: "C",
  bound: -12,
  sense: "at_most",
  limit: "product_c.reject",
  basis,
  facts: {},
  text: "Carton 3: product measured -9.5 °C, did not meet the limit: -12.0 °C or colder.",
};
export const stroke = [
  [0.1, 0.5, 0],
  [0.5, 0.2, 9],
  [0.9, 0.6, 20],
];
export const delivery = {
  id: "d1",
  site,
  supplier: { id: "p1", name: "Bright Cove" },
  order: null,
  docket_number: "DN-5530",
  receiver: "Rosa",
  arrived_at: "2026-11-24T19:10:00+00:00",
  signed_at: "2026-11-24T19:20:00+00:00",
  state: "signed",
  is_demo: false,
  document: {
    schema: 1,
    id: "d1",
    docket_number: "DN-5530",
    vehicle: { air: { entered: "-17,2", unit: "C" }, load: null },
    lines: [
      {
        id: "l1",
        specification_id: "v1",
        cartons_on_docket: 20,
        cartons_counted: 20,
        sampling: { plan: "house", n: 3, acceptance: 0, positions: [3], seed: "x" },
        cartons: [{ id: "c1", position: 3, temperature: { product: { entered: "14.9", unit: "F" }, method: "core" } }],
        decision: { kind: "accept", accepted: 20, refused: 0, held: 0, reason: "Chef agreed to cook today", decided_at: "" },
      },
    ],
    photos: [],
    wording: { text: "Docket DN-5530. 20 cartons refused.", copied_at: "" },
    signatures: {
      receiver: { name: "Rosa", strokes: [stroke], at: "2026-11-24T19:20:00Z" },
      driver: { refused: true, reason: "in a hurry", at: "2026-11-24T19:20:00Z" },
    },
  },
  judgement: {
    judgement_version: 1,
    limits_id: "x",
    unusable: [],
    vehicle: { reasons: [] },
    wording: "",
    lines: [
      {
        line_id: "l1",
        suggestion: "reject",
        reasons: [reason],
        not_checked: ["odour"],
        allowance: null,
        allowances: [],
        sampling: { lot: 20, opened: 1, planned: 3, acceptance: 0, defective: 1, upper_bad: 19, miss_chance: 0.8 },
        suggested_split: null,
        wording: "",
        cartons: [
          {
            carton_id: "c1",
            position: 3,
            defective: true,
            reasons: [reason],
            checks: { product_c: "beyond", odour: "not_checked" },
            derived: { product_c: -9.5 },
          },
        ],
      },
    ],
  },
  difference: [{ path: "lines[0].suggestion", phone: "accept", server: "reject" }],
  noticed: [{ code: "OTHER-NAME", text: "The receiver’s name is given as “Tom Arden”. The person signed in was “Mia Castel”." }],
  specifications: [
    {
      id: "v1",
      specification_id: "s",
      version: 2,
      code: "VAN-1620",
      name: "Whiteleg 16/20",
      presentation: "HLSO",
      state: "raw",
      grade: "16/20",
      carton_net_g: 10000,
      declared_glaze_percent: null,
      overrides: {},
    },
  ],
  limit_set: { ...limits, id: "x" },
  photos: [
    {
      id: "f1",
      sha256: "a".repeat(64),
      purpose: "sample",
      line_id: "l1",
      carton_id: "c1",
      taken_at: null,
      is_stored: true,
      unreadable: null,
      advice: {
        answer: "darkening_seen",
        share: 0.07,
        share_low: 0.04,
        share_high: 0.11,
        reasons: [],
        method_version: "colour-4",
        overlay: "/api/photos/x/overlay",
      },
      earlier: [
        {
          id: "e2",
          method_version: "colour-2",
          answer: "none_seen",
          share: 0.01,
          share_low: 0,
          share_high: 0.03,
          at: "2026-11-24T19:15:00+00:00",
          overlay: "/api/photos/x/overlay?of=e2",
        },
        {
          id: "e1",
          method_version: "colour-1",
          answer: "cannot_tell",
          share: null,
          share_low: null,
          share_high: null,
          at: "2026-11-24T19:12:00+00:00",
          overlay: null,
        },
      ],
    },
    {
      id: "f2",
      sha256: "b".repeat(64),
      purpose: "top",
      line_id: "l1",
      carton_id: "c1",
      taken_at: null,
      is_stored: false,
      unreadable: null,
      advice: null,
      earlier: [],
    },
  ],
  addenda: [],
};

let shown: ReturnType<typeof mount> | null = null;
/** The screen's text, once its answers (by the beginning of their address) are there. */
export async function show<Props extends Record<string, unknown>>(
  screen: Component<Props>,
  props: Props,
  answers: Record<string, unknown>,
) {
  vi.stubGlobal(
    "fetch",
    vi.fn(async (path: string) => {
      const found = Object.entries(answers).find(([start]) => path.startsWith(start));
      const [status, body] = found ? [200, found[1]] : [404, { code: "NOT-FOUND", sentence: "There is nothing at this address." }];
      return new Response(JSON.stringify(body), { status: status as number, headers: { "Content-Type": "application/json" } });
    }),
  );
  shown = mount(screen, { target: document.body, props });
  for (let turn = 0; turn < 8; turn++) {
    await new Promise((resolve) => setTimeout(resolve));
    flushSync();
  }
  return (document.body.textContent ?? "").replaceAll("\u00a0", " ").replace(/\s+/g, " ");
}
/** Take the screen away again. */
export async function gone(): Promise<void> {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
  vi.unstubAllGlobals();
  history.replaceState(null, "", "/desk");
}
