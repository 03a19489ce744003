import { afterEach, describe, expect, it } from "vitest";
import limits from "@trade-data/limits.json";
import Comparison from "./comparison/Comparison.svelte";
import Deliveries from "./deliveries/Deliveries.svelte";
import DeliveryPage from "./deliveries/DeliveryPage.svelte";
import Imports from "./imports/Imports.svelte";
import Limits from "./limits/Limits.svelte";
import { route } from "../state/route.svelte";
import type { Me } from "../trade/types";
import { delivery, gone, me, show, site } from "../testing/desk";
import Thermometers from "./thermometers/Thermometers.svelte";

afterEach(gone);

describe("a delivery", () => {
  const answers = {
    "/api/deliveries/d1/seals": { seals: [] },
    "/api/deliveries/d1/evidence-links": { links: [] },
    "/api/deliveries/d1": delivery,
  };
  it("says what was decided against the suggestion, and why", async () => {
    const text = await show(DeliveryPage, { id: "d1", me }, answers);
    expect(text).toContain("The receiver decided otherwise than suggested.");
    expect(text).toContain("Chef agreed to cook today");
    expect(text).toContain("product measured −9.5 °C, did not meet the limit: −12.0 °C or colder.");
    expect(text).toContain("−17,2 °C");
    expect(text).not.toMatch(/(^|[\s(“])-[\d,.]/);
    expect(text).toContain("CXC 8-1976 §4 (read in the source)");
  });
  it("shows the reading against its limits and as it was entered", async () => {
    const text = await show(DeliveryPage, { id: "d1", me }, answers);
    expect(text).toContain("−9.5 °C entered as 14.9 °F");
    expect(text).toContain("✕ refuse");
    expect(text).toContain("at most −18.0 °C, else inside the transport tolerance");
  });
  it("never hides a difference between phone and server", async () => {
    expect(await show(DeliveryPage, { id: "d1", me }, answers)).toContain("The phone and the server judged differently");
  });
  it("says what the sample cannot show and what was not checked", async () => {
    const text = await show(DeliveryPage, { id: "d1", me }, answers);
    expect(text).toContain("if 1 carton in 5 were bad, opening this many would miss it 80 % of the time");
    expect(text).toContain("Not checked on this line: smell.");
    expect(text).toMatch(/Load\s*not checked/);
  });
  it("labels photo advice as advice, and says where a photo still is", async () => {
    const text = await show(DeliveryPage, { id: "d1", me }, answers);
    expect(text).toContain("Photo advice: decides nothing Darkening seen: 7.0 % of the prawn area (4.0 to 11 %)");
    expect(text).toContain("It is safe on the phone that took it.");
  });
  it("folds away the earlier answers to a photo, newest first, with method, share and time", async () => {
    const text = await show(DeliveryPage, { id: "d1", me }, answers);
    expect(text).toContain(
      "2 earlier answers No darkening seen: 1.0 % (0 to 3.0 %) Wed, 25 Nov 2026, 06:15, method colour-2 Its marked areas",
    );
    expect(text).toContain("Cannot tell Wed, 25 Nov 2026, 06:12, method colour-1");
    const folded = [...document.querySelectorAll("details")].filter(
      (one) => one.querySelector("summary")?.textContent === "2 earlier answers",
    );
    expect(text).toContain("By method colour-4.");
    expect(folded).toHaveLength(1);
    expect(folded[0]!.open).toBe(false);
    expect(folded[0]!.querySelector("a")?.getAttribute("href")).toBe("/api/photos/x/overlay?of=e2");
  });
  it("draws a signature from its strokes and tells a refused one", async () => {
    const text = await show(DeliveryPage, { id: "d1", me }, answers);
    expect(document.querySelector("svg[role=img] path")?.getAttribute("d")).toBe("M30 50 L150 20 L270 60");
    expect(text).toContain("The driver did not sign. Reason noted: in a hurry");
  });
  it("tells what did not go together at signing", async () => {
    expect(await show(DeliveryPage, { id: "d1", me }, answers)).toContain("The person signed in was “Mia Castel”.");
  });
  it("goes by the site's clock", async () => {
    expect(await show(DeliveryPage, { id: "d1", me }, answers)).toContain("arrived Wed, 25 Nov 2026, 06:10");
  });
  it("gives the delivery's events for other systems as a file", async () => {
    await show(DeliveryPage, { id: "d1", me }, answers);
    const link = document.querySelector<HTMLAnchorElement>('a[href$="/epcis"]')!;
    expect(link.getAttribute("href")).toMatch(/^\/api\/deliveries\/[^/]+\/epcis$/);
    expect(link.hasAttribute("download")).toBe(true);
  });
  it("offers no evidence link to a receiver", async () => {
    expect(await show(DeliveryPage, { id: "d1", me: { ...me, role: "receiver" } }, answers)).not.toContain("Make a link");
  });
  it("tells the server's sentence when there is none", async () => {
    expect(await show(DeliveryPage, { id: "d9", me }, {})).toContain("There is nothing at this address.");
  });
});

describe("the list of deliveries", () => {
  const row = {
    ...delivery,
    differs: true,
    lines: [{ number: 1, specification: "Whiteleg", suggested: "reject", decided: "reject", accepted: 0, refused: 20, held: 0 }],
  };
  const sound = { ...row, id: "d2", docket_number: "DN-9", lines: [{ ...row.lines[0], decided: "accept", accepted: 20, refused: 0 }] };
  const answers = { "/api/deliveries": { page: 1, pages: 1, count: 2, rows: [row, sound] } };
  it("says what was refused", async () => {
    const text = await show(Deliveries, { me, suppliers: [] }, answers);
    expect(text).toContain("20 refused");
    expect(text).toContain("phone and server differ");
  });
  it("shows nothing else under “refused or held”, even if it is sent", async () => {
    history.replaceState(null, "", "/desk?refused=yes");
    const stop = route.start();
    const text = await show(Deliveries, { me, suppliers: [] }, answers);
    expect(text).toContain("DN-5530");
    expect(text).not.toContain("DN-9");
    route.ask({ refused: "" });
    stop();
  });
  it("says so in words when nothing has come yet", async () => {
    const text = await show(Deliveries, { me, suppliers: [] }, { "/api/deliveries": { page: 1, pages: 1, count: 0, rows: [] } });
    expect(text).toContain("No delivery has been signed yet.");
  });
});

describe("the comparison", () => {
  const rate = { cartons_opened: 12, defective: 3, rate: 0.25, low: 0.0889, high: 0.5323 };
  const few = {
    ...rate,
    supplier: { id: "p1", name: "Bright Cove" },
    deliveries: 3,
    deliveries_opened: 3,
    delivered_cartons: 60,
    refused_cartons: 3,
    held_cartons: 0,
    thawed_faults: 0,
    cartons_with_product: 10,
    cartons_with_sample: 6,
    comparable: null,
    expected: null,
    ratio: null,
    ratio_low: null,
    ratio_high: null,
    allowed_rate: null,
    allowed_low: null,
    allowed_high: null,
    apart: false,
    shrunk: null,
    shrunk_low: null,
    shrunk_high: null,
    chance_over: null,
    alone_share: 0.5,
    too_few: true,
    rank: null,
    luck: null,
    difference: null,
    refused_run: { deliveries: 2, cartons: 54, since: "2026-03-02T06:00:00Z" },
    over_time: {
      by: "month",
      needed: 5,
      centre: null,
      is_widened: null,
      shift: null,
      points: [{ from: "2026-03-01", opened: 12, defective: 3, low: null, high: null, is_out: false }],
    },
  };
  const told = {
    period: { from: "", to: "" },
    funnel: null,
    threshold: { cartons: 20, deliveries: 5 },
    common: { ...rate, cartons_opened: 100, defective: 8, rate: 0.08 },
    over_time: { ...few.over_time, points: [] },
    sites: [],
    rows: [few],
  };
  it("puts what was counted first, marks small numbers, and still says what was refused", async () => {
    const text = await show(Comparison, { me }, { "/api/comparison": told });
    expect(text).toContain("Too few to say: 12 cartons opened over 3 deliveries. It takes 20 over 5.");
    expect(text).toContain("3 of 12 opened cartons defective: 25 % (8.9 to 53 %)");
    expect(text).toContain("All of its last 2 deliveries were refused: 54 cartons since Mon, 2 Mar 2026.");
    expect(document.querySelector("article.few svg.grey")).not.toBeNull();
  });
  it("leads from the number to the deliveries behind it", async () => {
    await show(Comparison, { me }, { "/api/comparison": told });
    expect(document.querySelector("article a")?.getAttribute("href")).toMatch(
      /^\/desk\?supplier=p1&from=\d{4}-\d\d-01&to=\d{4}-\d\d-\d\d&defective=yes$/,
    );
  });
  it("says over time only what the points bear, and names the one that is out", async () => {
    expect(await show(Comparison, { me }, { "/api/comparison": told })).toContain("Too few to say: 1 month with an opened carton.");
    const limits = { low: 0, high: 8 };
    const point = (month: number, defective: number, is_out: boolean) => ({
      from: `2026-0${month}-01`,
      opened: 40,
      defective,
      ...limits,
      is_out,
      total: { opened: 40, defective, ...limits, is_out: false },
    });
    const over_time = {
      by: "month",
      needed: 5,
      centre: 0.06,
      is_widened: false,
      shift: null,
      points: [1, 2, 3, 4, 5].map((month) => point(month, month === 3 ? 14 : 1, month === 3)),
    };
    const luck = { says: "more", chance: 0.0014, among: 0.004, one_in: 710, compared: 3, design_effect: 1 };
    const text = await show(Comparison, { me }, { "/api/comparison": { ...told, rows: [{ ...few, too_few: false, luck, over_time }] } });
    expect(text).toContain("More than luck explains in Mar 2026: 14 of 40, where luck gives at most 8.");
    expect(text).toContain("More defective cartons than luck explains: 1 chance in 710 that luck alone goes as far");
    expect(document.querySelectorAll("article figure path.out").length).toBe(1);
    expect(document.querySelectorAll("article figure circle.in").length).toBe(9);
  });
  it("says what had nobody to be compared with and what was not measured", async () => {
    const text = await show(Comparison, { me }, { "/api/comparison": told });
    expect(text).toContain("50 % of its opened cartons are goods that nobody else brought");
    expect(text).toContain("10 had the product temperature read and 6 had a sample weighed");
  });
});

describe("limits and imports", () => {
  it("every limit shown has its source", async () => {
    const text = await show(Limits, { me }, { "/api/limits": { current: { ...limits, id: "x" }, versions: [] } });
    for (const limit of limits.limits) expect(text).toContain(limit.basis.source);
  });
  const receiver: Me = { ...me, role: "receiver" };
  it.each(["receiver", "site_manager"] as const)("a %s changes no limits of the group", async (role) => {
    const text = await show(Limits, { me: { ...me, role } }, { "/api/limits": { current: { ...limits, id: "x" }, versions: [] } });
    expect(text).not.toContain("Change limits");
    expect(text).toContain("Group operations may change them");
  });
  it("tells who brought the limits into use, and when", async () => {
    const versions = [
      { id: "x", name: "House", version: 3, created_at: "2026-11-24T19:10:00+00:00", created_by: "Gwen", is_current: true },
    ];
    const text = await show(Limits, { me }, { "/api/limits": { current: { ...limits, id: "x" }, versions } });
    expect(text).toMatch(/In use since .*24 Nov 2026.* published by Gwen\./);
  });
  it("a receiver imports nothing", async () => {
    expect(await show(Imports, { me: receiver }, {})).toContain("Importing is for site managers");
  });
});

describe("thermometers", () => {
  const check = {
    id: "k1",
    at: "2026-11-20T06:00:00+00:00",
    day: "2026-11-20",
    reading: { entered: "32,9", unit: "F" },
    reading_c: 0.5,
    allowed_c: 1,
    passed: true,
    due_on: "2026-12-20",
    done_by: "Rosa",
    sent_by: "Tom",
  };
  const row = {
    id: "t1",
    site_id: "s1",
    site,
    name: "Probe blue",
    accuracy_c: 0.5,
    in_use: true,
    today: "2026-11-25",
    last_checked_on: "2026-11-20",
    last_check_c: 0.5,
    check_due_on: "2026-12-20",
    last_checked_at: check.at,
    checks: [check],
  };
  const noted = {
    ...row,
    id: "t2",
    name: "Probe red",
    last_checked_on: "2026-09-01",
    check_due_on: "2026-10-01",
    last_checked_at: null,
    checks: [],
  };
  it("says of each how it stands, who checked it, and what needs somebody first", async () => {
    const text = await show(
      Thermometers,
      { me },
      { "/api/thermometers": { allowed_c: 1, rows: [row, noted, { ...noted, id: "t3", name: "Old", in_use: false }] } },
    );
    expect(text).toContain("1 of 2 thermometers in use is not in order.");
    expect(text.indexOf("Probe red")).toBeLessThan(text.indexOf("Probe blue"));
    expect(text.indexOf("Probe blue")).toBeLessThan(text.indexOf("Old"));
    expect(text).toContain("Checked 20 Nov, due in 25 days");
    expect(text).toContain("Rosa, sent by Tom");
    expect(text).toContain("32,9 °F: passed");
    expect(text).toContain("Check overdue since 1 Oct");
    expect(text).toContain("noted by hand or from a table");
    expect(text).toContain("Out of use");
  });
  it("goes by the limit of the limits in use, where that is stricter", async () => {
    const text = await show(Thermometers, { me }, { "/api/thermometers": { allowed_c: 0.4, rows: [row] } });
    expect(text).toContain("it has to read 0 °C, within 0.4 °C by the limits in use.");
    expect(text).toContain("Failed in ice on 20 Nov: read 0.5 °C");
    expect(text).toContain("before it is used again");
    // what was found then stays as it was found
    expect(text).toContain("32,9 °F: passed");
  });
  it("says where thermometers come from when there is none", async () => {
    const text = await show(Thermometers, { me }, { "/api/thermometers": { allowed_c: 1, rows: [] } });
    expect(text).toContain("No thermometer is listed. They come in by importing a table.");
  });
});
