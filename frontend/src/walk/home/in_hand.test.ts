import { flushSync, mount, unmount } from "svelte";
import { expect, test, vi } from "vitest";
import { delivery } from "../../testing/cast";

const OUT = vi.hoisted(() => "2026-11-29T06:00:00Z");
vi.mock("../../state/shelf.svelte", async () => {
  const { EMPTY_NOTES } = await import("../../store/documents");
  const draft = { id: "d", body: delivery(), notes: { ...EMPTY_NOTES, out_at: OUT }, conflict: null, state: "draft" };
  return { shelf: { drafts: [draft], toPutAway: [] }, isDiscardable: () => false };
});

import { clock } from "../../state/clock.svelte";
import { endSignal } from "../../state/end_signal";
import InHand from "./InHand.svelte";

// CV-12-69: the one limit out of the cold is 20 minutes
test("on the list of deliveries the same clock runs, with the same limit, and its alarm is given once", async () => {
  const alarm = vi.spyOn(endSignal, "give").mockImplementation(() => undefined);
  clock.tick(Date.parse(OUT) + 12 * 60_000);
  const shown = mount(InHand, { target: document.body });
  flushSync();
  expect(document.body.textContent).toContain("12 min out of the cold, freezer within 20");
  expect(alarm).not.toHaveBeenCalled();
  clock.tick(Date.parse(OUT) + 20 * 60_000);
  flushSync();
  clock.tick(Date.parse(OUT) + 21 * 60_000);
  flushSync();
  expect(document.body.textContent).toContain("21 min out of the cold, over 20: into the freezer now");
  expect(alarm).toHaveBeenCalledTimes(1);
  await unmount(shown);
});
