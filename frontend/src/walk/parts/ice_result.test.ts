import { flushSync, mount, unmount } from "svelte";
import { afterEach, expect, test, vi } from "vitest";
import type { Reading } from "../../store/document";

const known = vi.hoisted(() => ({ allowed: 1 }));
vi.mock("../../state/thermometers", () => ({
  allowedInIce: () => known.allowed,
  rememberThermometer: () => undefined,
  standingOf: () => ({ isTrusted: true, words: "" }),
  thermometersAt: () => [],
}));
import IceResult from "./IceResult.svelte";

let shown: ReturnType<typeof mount> | null = null;
afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
});

// Common practice, no source: 1.0 °C, house strict 0.5 °C, end point in (CV-5-56)
test.each([
  ["1.0", "C", 1, "Passed. 1.0 °C in ice, within 1.0 °C of 0 °C."],
  ["0.8", "C", 0.5, "Failed. 0.8 °C in ice, more than 0.5 °C from 0 °C."],
  ["-1.1", "C", 1, "Failed. −1.1 °C in ice, more than 1.0 °C from 0 °C."],
  ["32.9", "F", 0.5, "Passed. 0.5 °C in ice, within 0.5 °C of 0 °C."],
] as const)("%s %s in ice, held to %s °C", (entered, unit, allowed, says) => {
  known.allowed = allowed;
  shown = mount(IceResult, { target: document.body, props: { reading: { entered, unit } as Reading, siteId: "s", thermometerId: null } });
  flushSync();
  expect((document.body.textContent ?? "").replace(/\s+/g, " ")).toContain(says);
});
