import { flushSync, mount, unmount } from "svelte";
import { afterEach, describe, expect, it, vi } from "vitest";
import { route } from "../../state/route.svelte";
import type { LotRow } from "../../trade/types";
import Lots from "./Lots.svelte";
import { sumsOf } from "./sums";

const row: LotRow = {
  lot: "L2608",
  is_on_docket: false,
  site: { id: "s1", name: "Harbour", code: "HARB" },
  supplier: { id: "p1", name: "Bright Cove", code: "BCV" },
  delivery_id: "d1",
  docket_number: "DN-5530",
  line: 2,
  order: "PO-88",
  arrived_at: "2026-11-24T19:10:00+00:00",
  timezone: "Australia/Sydney",
  specification: "Whiteleg 16/20",
  decided: "accept",
  cartons: 20,
  accepted: 18,
  refused: 2,
  held: 0,
  opened: 3,
  labels: [{ position: 3, best_before: "2028-05-31", production_date: "" }],
  signed_by: "Rosa",
  signed_at: "2026-11-24T19:20:00+00:00",
  not_put_away: 4,
  set_apart: [],
  is_demo: false,
  put_away: [{ count: 14, freezer: "Freezer 2", position: "shelf 2 left", in_at: "2026-11-24T19:39:00+00:00", by: "Tom" }],
};

let shown: ReturnType<typeof mount> | null = null;
const asked: string[] = [];
async function show(address: string, answer: unknown): Promise<string> {
  asked.length = 0;
  vi.stubGlobal(
    "fetch",
    vi.fn(async (path: string) => {
      asked.push(path);
      return new Response(JSON.stringify(answer), { status: 200, headers: { "Content-Type": "application/json" } });
    }),
  );
  history.replaceState(null, "", address);
  stop = route.start();
  shown = mount(Lots, { target: document.body });
  for (let turn = 0; turn < 4; turn++) {
    await new Promise((resolve) => setTimeout(resolve));
    flushSync();
  }
  return (document.body.textContent ?? "").replaceAll("\u00a0", " ").replace(/\s+/g, " ");
}
let stop = () => {};
afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
  vi.unstubAllGlobals();
  stop();
  history.replaceState(null, "", "/desk");
});

describe("a recall sheet", () => {
  it("counts a docket line once, however many lots of the search stand on it", () => {
    const twice = [row, { ...row, lot: "L26081" }, { ...row, line: 3, not_put_away: -1 }];
    expect(sumsOf(twice)).toEqual({ lines: 2, sites: 1, suppliers: 1, came: 40, refused: 4, away: 28, waiting: 4 });
  });
  it("leads one step back and one step forward", async () => {
    const text = await show("/desk/lots?q=l2608", { count: 1, most: 200, rows: [row] });
    expect(asked).toEqual(["/api/lots?q=l2608"]);
    expect(text).toContain("The docket does not name the lot, but labels of 1 opened carton of 3 do (carton 3).");
    expect(text).toContain("Bright Cove, order PO-88, arrived Wed, 25 Nov 2026, 06:10 docket DN-5530, line 2");
    expect(text).toContain("of 20 cartons 18 accepted, 2 refused, 0 held; signed by Rosa");
    expect(text).toContain("14 cartons in Freezer 2, shelf 2 left, Wed, 25 Nov 2026, 06:39, by Tom");
    expect(text).toContain("4 kept cartons without a put-away on record.");
    expect(document.querySelector("a[href='/desk/deliveries/d1']")).not.toBeNull();
  });
  it("says that not all are shown, and what to do", async () => {
    expect(await show("/desk/lots?q=l2", { count: 1200, most: 200, rows: [row] })).toContain(
      "There are 1,200 such lines; the newest 1 are shown",
    );
  });
  it("asks nothing before there is something to look for, and says so where nothing is found", async () => {
    expect(await show("/desk/lots", { count: 0, most: 200, rows: [] })).toContain("Enter the lot");
    expect(asked).toEqual([]);
    if (shown) await unmount(shown);
    shown = null;
    stop();
    expect(await show("/desk/lots?q=zz", { count: 0, most: 200, rows: [] })).toContain("No docket and no label");
  });
});
