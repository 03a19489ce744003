import { afterEach, beforeAll, expect, test, vi } from "vitest";
import species from "@trade-data/species.json";
import wording from "@trade-data/wording_en.json";
import type * as testing from "../testing/desk";
import { delivery, me } from "../testing/desk";
import { tablesFor } from "./imports/tables";

/** Each screen of the desk in the pseudo-language: what a person reads is marked, a name or a figure, or not in the catalogue. */
let desk: typeof testing;
beforeAll(async () => {
  localStorage.setItem("underlid-language", "pseudo");
  vi.resetModules();
  desk = await import("../testing/desk");
});
afterEach(() => desk.gone());

const at = "2026-11-24T19:10:00+00:00";
const supplier = { id: "p1", name: "Bright Cove", code: "BCV" };
const site = { ...me.sites[0]!, is_current: true };
const row = {
  ...delivery,
  lines: [
    {
      number: 1,
      specification: "VAN-1620",
      suggested: "reject",
      decided: "accept",
      departed_because: "",
      accepted: 18,
      refused: 1,
      held: 1,
    },
  ],
  differs: true,
};
const rows = {
  "/api/lots": {
    count: 3,
    rows: [
      {
        lot: "L2608",
        is_on_docket: false,
        site,
        supplier,
        delivery_id: "d1",
        docket_number: "DN-5530",
        line: 2,
        order: "PO-88",
        arrived_at: at,
        timezone: "UTC",
        specification: "VAN-1620",
        decided: "accept",
        cartons: 20,
        accepted: 18,
        refused: 2,
        held: 0,
        opened: 3,
        labels: [{ position: 3, best_before: "2028-05-31", production_date: "" }],
        signed_by: "Rosa",
        signed_at: at,
        not_put_away: 4,
        set_apart: [],
        is_demo: true,
        put_away: [{ count: 14, freezer: "", position: "", in_at: at, by: "Tom" }],
      },
    ],
  },
  "/api/orders": {
    rows: [
      {
        id: "o1",
        number: "PO-88",
        site,
        supplier,
        expected_on: "2026-11-24",
        currency: "EUR",
        source: "",
        is_demo: false,
        lines: [{ id: "x", specification: "VAN-1620", cartons: 20, price_per_kg: "9.50" }],
        deliveries: [{ id: "d1", docket_number: "DN-5530" }],
      },
    ],
  },
  "/api/thermometers": {
    allowed_c: 0.5,
    rows: [
      {
        id: "t1",
        name: "Probe A",
        site,
        site_id: "s1",
        accuracy_c: 0.5,
        check_due_on: "2026-11-01",
        checks: [],
        in_use: true,
        last_check_c: 0.1,
        last_checked_at: at,
        last_checked_on: "2026-10-01",
        today: "2026-11-24",
      },
    ],
  },
  "/api/limits": { default: null, sets: [], rows: [] },
  "/api/kept/": { rows: [] },
  "/api/passkeys": { rows: [{ id: 1, label: "Key 1", created_at: "2026-11-20T03:00:00Z", last_used_at: null }] },
  "/api/devices": {
    rows: [
      { id: "v1", label: "", site, person: "Rosa", last_seen: at, enrolled_at: at, enrolled_by: null, revoked_at: at, revoked_by: "Mia" },
      {
        id: "v2",
        label: "phone",
        site: null,
        person: "Tom",
        last_seen: at,
        enrolled_at: null,
        enrolled_by: null,
        revoked_at: null,
        revoked_by: null,
      },
    ],
  },
  "/api/trail": {
    page: 1,
    pages: 2,
    rows: [{ id: 1, about: "x", address: "", at, device: "", person: "", site: "Harbour", words: "signed in" }],
  },
  "/api/tables": {
    files: ["lines"],
    tables: [{ name: "lines", meaning: "Docket lines", columns: [{ name: "carton", kind: "number", meaning: "Its place" }] }],
  },
  "/api/deliveries/d1/seals": { seals: [] },
  "/api/deliveries/d1/evidence-links": { links: [] },
  "/api/deliveries/d1/claims": { rows: [] },
  "/api/deliveries/d1/logger-files": { rows: [] },
  "/api/deliveries/d1": delivery,
  "/api/deliveries": { rows: [row], count: 1, page: 1, pages: 2 },
};

/** Names, figures and what others wrote: every text of the answers, and the trade's words until they are in the catalogue. */
function textsOf(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return value && typeof value === "object" ? Object.values(value).flatMap(textsOf) : [];
}
const asPattern = (text: string) =>
  text
    .replace(/[.*+?^$()|[\]\\]/g, "\\$&")
    .replace(/ /g, "\\s")
    .replace(/-(?=\d)/g, "[-−]")
    .replace(/\{[^}]*\}/g, ".{0,60}?");
/** Said by the claims, whose words have their own owner. */
const NOT_MOVED = ["Claims", "Nothing to claim: no carton was refused or missing, and none was taken with an allowance."];
const DATES = /\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun|Jan|Feb|Mar|Apr|May|June?|July?|Aug|Sept?|Oct|Nov|Dec)\b/g;
/** How things are written the world over: units, files, time zones. */
const WRITTEN = /\b(kg|lb|min|CSV|PDF|SHA|UTC|EPCIS|QR|JSON|Parquet|\.xlsx|xlsx)\b/g;

function unmarked(text: string, known: RegExp[]): string {
  let left = text;
  for (let before = ""; before !== left;) left = (before = left).replace(/⟦[^⟦⟧]*⟧/g, " ");
  for (const one of known) left = left.replace(one, " ");
  return /[A-Za-z]{2}/.test(left.replace(DATES, " ").replace(WRITTEN, " ")) ? text : "";
}

const SCREENS: [string, () => Promise<{ default: never }>, Record<string, unknown>][] = [
  ["deliveries", () => import("./deliveries/Deliveries.svelte") as never, { me, suppliers: [supplier] }],
  ["a delivery", () => import("./deliveries/DeliveryPage.svelte") as never, { me, id: "d1" }],
  ["lots", () => import("./lots/Lots.svelte") as never, {}],
  ["orders", () => import("./orders/Orders.svelte") as never, { me }],
  ["thermometers", () => import("./thermometers/Thermometers.svelte") as never, { me }],
  ["imports", () => import("./imports/Imports.svelte") as never, { me }],
  ["what is kept", () => import("./keep/Keep.svelte") as never, { me, kind: "" }],
  ...["people", "sites", "suppliers", "specifications", "thermometers", "freezers"].map(
    (kind) => [`kept ${kind}`, () => import("./keep/Keep.svelte") as never, { me, kind }] as never,
  ),
  ["devices", () => import("./devices/Devices.svelte") as never, { me }],
  ["the trail", () => import("./trail/Trail.svelte") as never, { me }],
  ["exports", () => import("./exports/Exports.svelte") as never, { me }],
  ["the card", () => import("./card/Card.svelte") as never, {}],
  ["more", () => import("./shell/More.svelte") as never, { me }],
  ["places", () => import("./shell/Places.svelte") as never, { here: ["desk"], role: "administrator" }],
];

test.each(SCREENS)("%s: nothing is left unmarked", { timeout: 60_000 }, async (name, screen, props) => {
  if (name === "lots") history.replaceState(null, "", "/desk/lots?q=L2608");
  (await import("../state/route.svelte")).route.start()();
  await desk.show((await screen()).default, props, rows);
  const data = [
    ...tablesFor(me.role).flatMap((table) => table.headings.join(", ")),
    ...NOT_MOVED,
    ...textsOf(rows),
    ...textsOf(me),
    ...textsOf(supplier),
    ...textsOf(wording),
    ...textsOf(species),
  ];
  const known = [...new Set(data)]
    .filter((text) => /[A-Za-z]{2}/.test(text.replace(/\{[^}]*\}/g, "")))
    .sort((a, b) => b.length - a.length)
    .map((text) => new RegExp(`(?<!\\w)${asPattern(text)}(?!\\w)`, "gi"));
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const said = [...document.body.querySelectorAll("*")].flatMap((one) =>
    ["aria-label", "placeholder", "alt", "title"].map((read) => one.getAttribute(read) ?? ""),
  );
  while (walker.nextNode()) said.push(walker.currentNode.textContent ?? "");
  expect(said.join("")).toContain("⟦");
  expect([...new Set(said.map((text) => unmarked(text, known)).filter(Boolean))]).toEqual([]);
});
