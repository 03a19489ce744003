import { flushSync, mount, unmount } from "svelte";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Me } from "../../trade/types";
import Agreement from "./Agreement.svelte";

const sites = [
  { id: "s1", name: "Harbour", code: "HARB" },
  { id: "s2", name: "Hill", code: "HILL" },
];
const group: Me = {
  id: 1,
  name: "Ada",
  role: "group_operations",
  sites: sites.map((site) => ({ ...site, timezone: "UTC", currency: "EUR", market: "EU" })),
};
const share = (count: number, of: number) => ({
  count,
  of,
  share: of ? count / of : null,
  low: of ? 0.1 : null,
  high: of ? 0.9 : null,
  too_few: of < 20,
});
const counts = {
  cartons: 100,
  deliveries: 9,
  agreeing: share(77, 88),
  right_flags: share(37, 42),
  flagged: share(37, 47),
  flagged_beyond: share(7, 7),
  wrong_flags: share(5, 53),
  untold: share(12, 100),
  nothing_to_compare: 3,
  table: {
    darkening_seen: { beyond: 7, within: 30, none: 5 },
    none_seen: { beyond: 0, within: 6, none: 40 },
    cannot_tell: { beyond: 0, within: 4, none: 8 },
  },
};
const none = {
  ...counts,
  cartons: 0,
  deliveries: 0,
  agreeing: share(0, 0),
  right_flags: share(0, 0),
  flagged: share(0, 0),
  wrong_flags: share(0, 0),
  untold: share(0, 0),
  nothing_to_compare: 0,
};
const row = {
  ...counts,
  specification_id: "p1",
  code: "VAN-1620",
  name: "Whiteleg 16/20",
  version: 3,
  is_on: true,
  since_version: 1,
  by: "Saskia",
  at: "2026-11-03T10:00:00Z",
};
const quiet = {
  species_code: "PNV",
  species: "Whiteleg shrimp",
  presentation: "HLSO",
  state: "raw",
  sound: 40,
  spotted: 25,
  shipped: 0.64,
  from: "shipped",
  cut_off: 0.64,
  is_quiet: true,
  refitted: 0.7,
  low: 0.6,
  high: 0.8,
  drift: 0.06,
  auc: 0.6,
  auc_low: 0.45,
  auc_high: 0.74,
};
const told = {
  period: { from: "", to: "" },
  threshold: { cartons: 20, deliveries: 5 },
  all: counts,
  blind: none,
  maybe_read: counts,
  unanswered: 2,
  methods: [{ version: "colour-1", photos: 120 }],
  sites: [
    { ...sites[0], ...counts, unanswered: 2 },
    { ...sites[1], ...none, unanswered: 0 },
  ],
  specifications: [
    row,
    {
      ...none,
      specification_id: "p2",
      code: "TIG",
      name: "Tiger 8/12",
      version: 2,
      is_on: false,
      since_version: 2,
      by: "Saskia",
      at: "2026-11-03T10:00:00Z",
    },
  ],
  species: [],
  learnt: { least: 20, floor: 0.65, most_moved: 0.2, kept_aside: {}, rows: [quiet] },
};

let shown: ReturnType<typeof mount> | null = null;
let asked: { path: string; body: unknown }[] = [];
async function settle(): Promise<string> {
  for (let turn = 0; turn < 8; turn++) {
    await new Promise((resolve) => setTimeout(resolve));
    flushSync();
  }
  return (document.body.textContent ?? "").replaceAll("\u00a0", " ").replace(/\s+/g, " ");
}
async function show(me: Me, answer: object = told, refusal: object | null = null): Promise<string> {
  asked = [];
  vi.stubGlobal(
    "fetch",
    vi.fn(async (path: string, init: RequestInit) => {
      asked.push({ path, body: init.body ? JSON.parse(String(init.body)) : null });
      const isRefused = init.method === "POST" && refusal;
      return new Response(JSON.stringify(isRefused ? refusal : answer), {
        status: isRefused ? 403 : 200,
        headers: { "Content-Type": "application/json" },
      });
    }),
  );
  shown = mount(Agreement, { target: document.body, props: { me } });
  return settle();
}
const button = (words: string) => [...document.querySelectorAll("button")].find((one) => one.textContent?.trim().startsWith(words))!;
afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
  vi.unstubAllGlobals();
});

describe("the worth of the photo advice", () => {
  it("is told first in a plain sentence", async () => {
    const text = await show(group);
    expect(text).toContain("Of 42 cartons where the advice said darkening, receivers found black spot in 37.");
    expect(document.querySelector("section p.first")?.textContent).toContain("Of 42 cartons");
    expect(text).toContain("88 % (10 to 90 %)");
    expect(text).toContain("the receiver may have read it before answering");
  });
  it("keeps apart what has nothing to compare with and what has no answer", async () => {
    const text = await show(group);
    expect(text).toContain("3 cartons with advice were not looked at for black spot");
    expect(text).toContain("2 photographed cartons have no answer");
  });
  it("says nothing where there is nothing, and offers the switch all the same", async () => {
    const text = await show(group, { ...told, all: none, maybe_read: none });
    expect(text).toContain("Nothing can be said yet.");
    expect(document.querySelectorAll('[role="switch"]')).toHaveLength(2);
  });
  it("tells what the cut-off rests on, and that it went quiet", async () => {
    const text = await show(group);
    expect(text).toContain("on photographs kept aside is not known yet");
    expect(text).toContain(
      "Whiteleg shrimp, headless, shell on, raw40 cartons without and 25 with black spot: cut-off 0.70 (0.60 to 0.80), 0.06 above the shipped one.",
    );
    expect(text).toContain("Quiet: the lower end is not above 0.65, so only frames are shown.");
  });
});

describe("the switch", () => {
  it("asks once, then writes who and when by the server", async () => {
    await show(group);
    button("Switch off").click();
    expect(await settle()).toContain("This makes version 4 of the specification, with your name and the time.");
    expect(asked.filter(({ body }) => body)).toEqual([]);
    [...document.querySelectorAll<HTMLButtonElement>("button.main")].find((one) => one.textContent?.trim() === "Switch off")!.click();
    await settle();
    expect(asked.filter(({ body }) => body)).toEqual([{ path: "/api/specifications/p1/advice", body: { is_on: false } }]);
    expect(asked.at(-1)!.path).toContain("/api/agreement");
  });
  it("can be left as it is", async () => {
    await show(group);
    button("Switch off").click();
    await settle();
    button("Leave it on").click();
    expect(await settle()).not.toContain("This makes version");
    expect(asked.every(({ body }) => body === null)).toBe(true);
  });
  it("tells the server's sentence when it says no", async () => {
    await show(group, told, { code: "ROLE-NEEDED", sentence: "This is for a group operations. Nothing was changed." });
    button("Switch off").click();
    await settle();
    document.querySelector<HTMLButtonElement>("button.main")!.click();
    expect(await settle()).toContain("Nothing was changed.");
  });
  it("says since when, by whom and with what effect it is off", async () => {
    const text = await show(group);
    expect(text).toContain("Photo advice is off since Tue, 3 Nov 2026, set by Saskia (version 2)");
    expect(text).toContain("Phones and evidence say so.");
    const switches = [...document.querySelectorAll('[role="switch"]')].map((one) => one.getAttribute("aria-checked"));
    expect(switches).toEqual(["true", "false"]);
  });
  it("is not a site manager's, who sees it all the same", async () => {
    const text = await show({ ...group, role: "site_manager" });
    expect(text).toContain("group operations switch its photo advice");
    expect(text).toContain("Photo advice is off");
    expect(document.querySelector('[role="switch"]')).toBeNull();
  });
});
