import { describe, expect, it } from "vitest";
import vectors from "../../../fixtures/vectors/gate.json";
import { ADVICE, GATE_SIDE, gateSize, greyOf, readGate, type Grey } from "./gate";

// The picture of a vector is written as a rule, so that both languages draw the very same grey levels.
function drawn(picture: { rule: string; rows: number; cols: number; a: number; b: number; c: number }): Grey {
  const levels = new Uint8Array(picture.rows * picture.cols);
  for (let y = 0; y < picture.rows; y += 1) {
    for (let x = 0; x < picture.cols; x += 1) levels[y * picture.cols + x] = levelOf(picture, x, y);
  }
  return { rows: picture.rows, cols: picture.cols, levels };
}

function levelOf({ rule, a, b, c }: { rule: string; a: number; b: number; c: number }, x: number, y: number): number {
  if (rule === "flat") return a;
  if (rule === "checks") return (Math.floor(x / a) + Math.floor(y / a)) % 2 === 0 ? b : c;
  if (rule === "ramp") return Math.min(255, Math.floor((x * a + y * b) / c));
  if (rule === "hash") return Math.min(255, b + ((x * 73 + y * 151 + ((x * y) % 97) * 31) % a));
  if (rule === "soft checks") {
    const across = Math.min(x % (2 * a), 2 * a - (x % (2 * a)));
    const down = Math.min(y % (2 * a), 2 * a - (y % (2 * a)));
    return Math.min(255, b + Math.floor((c * (across + down)) / (2 * a)));
  }
  throw new Error(`no rule ${rule}`);
}

describe("gate", () => {
  for (const one of vectors.cases) {
    it(`${one.id} as on the server`, () => {
      expect(readGate(drawn(one.in.picture), one.in.short_side)).toEqual(one.out);
    });
  }
  it("has a sentence for each verdict in the vectors", () => {
    for (const one of vectors.cases) expect(ADVICE[one.out.verdict as keyof typeof ADVICE]).toMatch(/\.$/);
  });
  it("weighs colours as Rec. 601 does", () => {
    expect(Array.from(greyOf(new Uint8ClampedArray([255, 0, 0, 255, 0, 255, 0, 255, 0, 0, 255, 255]), 3, 1).levels)).toEqual([76, 150, 29]);
  });
  it("scales the long side to 640", () => {
    expect(gateSize(4032, 3024)).toEqual({ cols: GATE_SIDE, rows: 480 });
    expect(gateSize(320, 240)).toEqual({ cols: 320, rows: 240 });
  });
});
