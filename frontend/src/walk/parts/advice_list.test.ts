import { flushSync, mount, unmount } from "svelte";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Walk } from "../../state/walk.svelte";

const known = vi.hoisted(() => ({ answers: null as Record<string, unknown> | null, specifications: [] as object[] }));
vi.mock("../../state/advice.svelte", () => ({ advice: { of: () => known.answers, follow: () => () => undefined } }));
vi.mock("../../state/session.svelte", () => ({
  session: {
    get reference() {
      return { specifications: known.specifications };
    },
    specification: (id: string) => known.specifications.find((one) => (one as { id: string }).id === id) ?? null,
  },
}));
vi.mock("../../state/photos.svelte", () => ({ photoUrl: async () => null, thumbUrl: async () => null }));

import AdviceList from "./AdviceList.svelte";

const OFF = "Photo advice is switched off for this specification.";
const version = (id: string, of: string, number: number, advisory: boolean) => ({
  id,
  specification_id: of,
  version: number,
  advisory,
  name: of,
});
const line = (id: string, specification_id: string) => ({ id, specification_id, cartons: [{ id: `${id}c`, position: 4 }] });
const photo = (sha256: string, line_id: string) => ({ id: sha256, sha256, line_id, carton_id: `${line_id}c`, purpose: "top" });
const body = { lines: [line("l1", "w1"), line("l2", "t1")], photos: [photo("a", "l1"), photo("b", "l2")] };

let shown: ReturnType<typeof mount> | null = null;
function show(props: { lineId?: string | null; isDraft?: boolean; withUnanswered?: boolean }, photos = body.photos): string {
  const walk = { id: "d", body: { ...body, photos }, isDraft: props.isDraft ?? true } as unknown as Walk;
  shown = mount(AdviceList, { target: document.body, props: { walk, lineId: props.lineId ?? null, withUnanswered: props.withUnanswered } });
  flushSync();
  return (document.body.textContent ?? "").replace(/\s+/g, " ").trim();
}
afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
  known.answers = null;
  known.specifications = [];
});

describe("photo advice on the phone", () => {
  it("says without a signal that it is switched off, although the order names the older version", () => {
    known.specifications = [version("w1", "Whiteleg", 1, true), version("w2", "Whiteleg", 2, false), version("t1", "Tiger", 1, true)];
    expect(show({ lineId: "l1" })).toContain(OFF);
  });
  it("names the goods where the delivery has others too, and shows the others' advice", () => {
    known.specifications = [version("w1", "Whiteleg", 1, true), version("t1", "Tiger", 1, true)];
    known.answers = {
      a: { answer: "switched_off", share: null, reasons: [{ code: "SWITCHED-OFF", text: OFF }], overlay: null },
      b: { answer: "none_seen", share: 0.01, share_low: 0, share_high: 0.03, where: [], reasons: [], overlay: null },
    };
    const text = show({ isDraft: false });
    expect(text).toContain("Whiteleg: photo advice is switched off for this specification.");
    expect(text).toContain("No dark places seen");
    expect(document.querySelectorAll('[data-testid="advice"]')).toHaveLength(1);
  });
  it("says of one photo that its turn came after switching off, beside another that has its answer", () => {
    const late = "Photo advice was switched off for this specification when this photo’s turn came. Nothing looked at it.";
    known.answers = {
      a: { answer: "switched_off", share: null, reasons: [{ code: "WAS-SWITCHED-OFF", text: late }], overlay: null },
      b: { answer: "none_seen", share: 0.01, share_low: 0, share_high: 0.03, where: [], reasons: [], overlay: null },
    };
    const text = show({ isDraft: false });
    expect(text).toContain(`Switched off ${late}`);
    expect(text).toContain("No dark places seen");
    expect(document.querySelector('[data-testid="advice-off"]')).toBeNull();
  });
  it("counts pieces and shows the frames at once, the photo's count as a hint", () => {
    known.answers = {
      a: {
        answer: "darkening_seen",
        pieces: 17,
        dark_pieces: 3,
        at_head: 2,
        length_mm: { mean: 92.4, pieces: 12 },
        reasons: [],
        overlay: "/api/photos/a/overlay",
      },
      b: {
        answer: "look_here",
        pieces: 9,
        reasons: [{ code: "frames_only", text: "The darkest places are framed." }],
        overlay: "/api/photos/b/overlay",
      },
    };
    const text = show({ isDraft: false });
    expect(text).toContain("3 of 17 pieces look darkened, 2 of them at the head");
    expect(text).toContain("17 pieces counted in the photo, about 92 mm long. This is only a hint: the weighed count stands.");
    expect(text).toContain("Look at the framed places");
    expect(document.querySelectorAll('img[alt="The darkest places, framed"]')).toHaveLength(2);
  });
  it("says nothing of a photo into the carton where the method is not sure", () => {
    known.answers = { a: { answer: "cannot_tell", reasons: [], overlay: null }, b: null };
    expect(show({ isDraft: false })).toBe("");
  });
  it("asks for the receiver's own finding before it shows anything", () => {
    known.answers = { a: { answer: "finding_first", reasons: [], overlay: null } };
    expect(show({})).toContain("Enter the black spot you saw first; the advice comes after that.");
  });
  it("says what was seen in words, without a share, and looks at no docket for prawns", () => {
    known.answers = { b: { answer: "none_seen", share: 0.013, share_low: 0, share_high: 0.03, where: [], reasons: [], overlay: null } };
    expect(show({ isDraft: false })).not.toMatch(/[0-9] %/);
    expect(show({ isDraft: false, withUnanswered: true }, [{ ...body.photos[0]!, purpose: "docket" }])).not.toContain("Docket");
  });
  it("says nothing of it where it is on", () => {
    known.specifications = [version("w1", "Whiteleg", 1, true), version("t1", "Tiger", 1, true)];
    expect(show({ lineId: "l1" })).toBe("");
  });
});
