import { flushSync, mount, unmount, type Component } from "svelte";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import Agreement from "../agreement/Agreement.svelte";
import Comparison from "../comparison/Comparison.svelte";
import { route } from "../../state/route.svelte";
import type { Me } from "../../trade/types";
import { firstDay, lastDay, monthsBack } from "./period.svelte";

describe("months", () => {
  it("go back over the turn of the year", () => {
    expect(monthsBack(new Date(2026, 0, 31), 3).map((months) => `${months.name}: ${months.from} to ${months.to}`)).toEqual([
      "Last 12 months: 2025-02-01 to 2026-01-31",
      "Last 3 months: 2025-11-01 to 2026-01-31",
      "Jan 2026: 2026-01-01 to 2026-01-31",
      "Dec 2025: 2025-12-01 to 2025-12-31",
      "Nov 2025: 2025-11-01 to 2025-11-30",
    ]);
  });
  it("begin and end on their own days", () => {
    expect([firstDay("2026-02"), lastDay("2026-02"), lastDay("2028-02"), lastDay("2026-12")]).toEqual([
      "2026-02-01",
      "2026-02-28",
      "2028-02-29",
      "2026-12-31",
    ]);
  });
});

const site = { id: "s1", name: "Harbour", code: "HARB", timezone: "Australia/Sydney", currency: "AUD", market: "ANZ" as const };
const group: Me = { id: 1, name: "Ada", role: "group_operations", sites: [site, { ...site, id: "s2", name: "Hill" }] };
const asked: string[] = [];
let shown: ReturnType<typeof mount> | null = null;

async function settle(): Promise<void> {
  for (let turn = 0; turn < 4; turn++) {
    await new Promise((resolve) => setTimeout(resolve));
    flushSync();
  }
}
type Field = HTMLSelectElement | HTMLInputElement;
async function show(screen: Component<{ me: Me }>, path: string, me: Me): Promise<Field[]> {
  history.replaceState(null, "", path);
  window.dispatchEvent(new PopStateEvent("popstate"));
  shown = mount(screen, { target: document.body, props: { me } });
  await settle();
  return [...document.querySelectorAll<Field>(".fields select, .fields input")];
}
async function choose(select: Field, value: string): Promise<void> {
  select.value = value;
  select.dispatchEvent(new Event("change", { bubbles: true }));
  await settle();
}
beforeEach(() => {
  vi.useFakeTimers({ now: new Date(2026, 10, 25, 12), toFake: ["Date"] });
  asked.length = 0;
  vi.stubGlobal(
    "fetch",
    vi.fn(async (path: string) => {
      asked.push(path);
      return new Response(JSON.stringify({ code: "X", sentence: "Not now." }), {
        status: 503,
        headers: { "Content-Type": "application/json" },
      });
    }),
  );
});
let stop = route.start();
afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
  vi.useRealTimers();
  vi.unstubAllGlobals();
  history.replaceState(null, "", "/desk");
  stop();
  stop = route.start();
});

describe.each([
  ["comparison", Comparison as Component<{ me: Me }>],
  ["agreement", Agreement as Component<{ me: Me }>],
])("the period of the %s", (name, screen) => {
  it("is the last twelve months of all sites when the address asks for nothing", async () => {
    await show(screen, `/desk/${name}`, group);
    expect(asked).toEqual([`/api/${name}?from=2025-12-01&to=2026-11-30`]);
  });
  it("is what the address asks for, days or whole months, and what is chosen goes into the address", async () => {
    const [months, from, to, where] = await show(screen, `/desk/${name}?from=2026-02&to=2026-04-17&site=s2`, group);
    expect([months!.value, from!.value, to!.value, where!.value]).toEqual(["-1", "2026-02-01", "2026-04-17", "s2"]);
    expect(asked.at(-1)).toBe(`/api/${name}?from=2026-02-01&to=2026-04-17&site=s2`);
    await choose(from!, "2026-03-09");
    await choose(where!, "");
    expect(window.location.search).toBe("?from=2026-03-09&to=2026-04-17");
    expect(asked.at(-1)).toBe(`/api/${name}?from=2026-03-09&to=2026-04-17`);
  });
  it("is a month, or the last three, with one touch", async () => {
    const [months] = await show(screen, `/desk/${name}`, group);
    expect((months as HTMLSelectElement).selectedOptions[0]!.textContent).toBe("Last 12 months");
    await choose(months!, "1");
    expect(asked.at(-1)).toBe(`/api/${name}?from=2026-09-01&to=2026-11-30`);
    await choose(months!, "3");
    expect(asked.at(-1)).toBe(`/api/${name}?from=2026-10-01&to=2026-10-31`);
  });
  it("cannot end before it begins", async () => {
    const [, from, to] = await show(screen, `/desk/${name}?from=2026-02-03&to=2026-04-17`, group);
    expect([(from as HTMLInputElement).max, (to as HTMLInputElement).min]).toEqual(["2026-04-17", "2026-02-03"]);
  });
  it("asks nobody for a site who has only one", async () => {
    expect(await show(screen, `/desk/${name}`, { ...group, sites: [site] })).toHaveLength(3);
  });
  it("is not asked for anew when something else in the address changes", async () => {
    await show(screen, `/desk/${name}`, group);
    route.ask({ view: "crude" });
    await settle();
    expect(asked).toHaveLength(1);
  });
});
