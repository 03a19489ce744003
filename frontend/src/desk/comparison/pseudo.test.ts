import { expect, it, vi } from "vitest";

it("says everything from the catalogue, so that it can be said in another language", async () => {
  vi.resetModules();
  localStorage.setItem("underlid-language", "pseudo");
  const [strip, time, funnel, measures] = await Promise.all([
    import("./strip"),
    import("./over_time"),
    import("./funnel"),
    import("./measures"),
  ]);
  localStorage.removeItem("underlid-language");
  const count = { defective: 4, opened: 9, low: 0, high: 2, is_out: true };
  const told = { by: "month" as const, needed: 5, centre: 0.1, is_widened: true, points: [{ from: "2026-05-01", ...count }], shift: null };
  const luck = { says: "more" as const, chance: 0.001, among: 0.01, one_in: 900, compared: 4, design_effect: 1.2 };
  const said = [
    strip.luckWords(luck),
    strip.luckWords({ ...luck, says: "within" }),
    strip.differenceWords({ share: 0.1, low: 0.05, high: 0.2 }),
    strip.aloneWords(0.5),
    strip.refusedWords({ deliveries: 2, cartons: 40, since: "2026-05-01T06:00:00Z" }),
    time.saysOverTime(told),
    time.saysOverTime({
      ...told,
      points: [{ from: "2026-05-01", ...count, is_out: false }],
      shift: { from: "2026-05-01", before: count, since: count, one_in: 12 },
    }),
    funnel.spreadWords({ effect: 1.4, spread: 3, limits: [] }),
    funnel.rankWords({ low: 1, high: 3, middle: 2, of: 5, is_last: 0.1 }),
    ...measures.columnsFor("site", true).map(({ label }) => label),
    ...Object.values(measures.BY_WORDS),
  ];
  for (const sentence of said) expect(sentence).toMatch(/^⟦.*⟧$/s);
});
