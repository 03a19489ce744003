// Mirror of imaging/gate.py: same steps, same whole numbers, on a greyscale of at most 640 pixels.
import { t } from "../messages";
// The browser scales and turns the picture; from the grey levels on both give the very same answer.

export const GATE_SIDE = 640; // px, longest side of the greyscale
export const MIN_SHORT_SIDE = 600; // px of the photo as taken; at least this is fine
export const MIN_SHARPNESS = 0.36; // at least this is fine
export const DARK_LEVEL = 70; // the grey level that the brightest tenth must reach
export const GLARE_LEVEL = 250; // grey levels at or above count as glare
export const MAX_GLARE = 0.25; // at most this share is fine
export const MIN_TEXTURE = 0.04; // at least this share is fine
const REACH = 4; // half width of the re-blur, so 9 pixels
const SQUARE = 16; // px
const STRUCTURE = 24; // grey levels between the darkest and brightest pixel of a square

export type GateVerdict = "usable" | "blurred" | "dark" | "glared" | "small" | "empty";

export const ADVICE: Record<GateVerdict, string> = {
  usable: t("dock-gate-usable"),
  blurred: t("dock-gate-blurred"),
  dark: t("dock-gate-dark"),
  glared: t("dock-gate-glared"),
  small: t("dock-gate-small"),
  empty: t("dock-gate-empty"),
};

export interface GateReading {
  sharpness: number;
  exposure: number;
  glare: number;
  texture: number;
  verdict: GateVerdict;
}

export interface Grey {
  rows: number;
  cols: number;
  levels: Uint8Array | Uint8ClampedArray; // row by row
}

/** Greyscale of canvas pixels (R, G, B, A): (9798 R + 19235 G + 3735 B + 16384) >> 15. */
export function greyOf(rgba: Uint8ClampedArray | Uint8Array, cols: number, rows: number): Grey {
  const levels = new Uint8Array(cols * rows);
  for (let i = 0, p = 0; i < levels.length; i += 1, p += 4) {
    levels[i] = (9798 * rgba[p]! + 19235 * rgba[p + 1]! + 3735 * rgba[p + 2]! + 16384) >> 15;
  }
  return { rows, cols, levels };
}

/** Size of the greyscale for a photo of that size: the longest side at most 640 px. */
export function gateSize(width: number, height: number): { cols: number; rows: number } {
  const scale = GATE_SIDE / Math.max(width, height);
  if (scale >= 1) return { cols: width, rows: height };
  return { cols: Math.max(1, Math.floor(width * scale + 0.5)), rows: Math.max(1, Math.floor(height * scale + 0.5)) };
}

/** Measure a shot; `shortSide` is that of the photo as taken, px. */
export function readGate(grey: Grey, shortSide: number): GateReading {
  const sharpness = sharpnessOf(grey);
  const counts = new Array<number>(256).fill(0);
  for (const level of grey.levels) counts[level]! += 1;
  const exposure = levelReached(counts, grey.levels.length);
  let glared = 0;
  for (let level = GLARE_LEVEL; level < 256; level += 1) glared += counts[level]!;
  const glare = glared / grey.levels.length;
  const texture = textureOf(grey);
  return { sharpness, exposure, glare, texture, verdict: verdictOf(shortSide, sharpness, exposure, glare, texture) };
}

function verdictOf(shortSide: number, sharpness: number, exposure: number, glare: number, texture: number): GateVerdict {
  if (shortSide < MIN_SHORT_SIDE) return "small";
  if (exposure < DARK_LEVEL) return "dark";
  if (glare > MAX_GLARE) return "glared";
  if (texture < MIN_TEXTURE) return "empty";
  return sharpness < MIN_SHARPNESS ? "blurred" : "usable";
}

function levelReached(counts: number[], pixels: number): number {
  let brighter = 0;
  for (let level = 255; level >= 0; level -= 1) {
    brighter += counts[level]!;
    if (brighter * 10 >= pixels) return level;
  }
  return 0;
}

/** Share of neighbouring differences that a further blur takes away, the lesser of both directions. */
export function sharpnessOf(grey: Grey): number {
  const across = lostShare(grey.levels, grey.rows, grey.cols, grey.cols, 1);
  const down = lostShare(grey.levels, grey.cols, grey.rows, 1, grey.cols);
  return Math.min(across, down);
}

function lostShare(levels: Grey["levels"], lines: number, length: number, lineStep: number, step: number): number {
  const reach = 2 * REACH + 1;
  if (length < reach + 2) return 0;
  let total = 0;
  let lost = 0;
  for (let line = 0; line < lines; line += 1) {
    const start = line * lineStep;
    for (let i = 0; i + reach < length; i += 1) {
      // The difference of two neighbours in the blurred row is the pixel that enters less the one that leaves.
      const blurred = Math.abs(levels[start + (i + reach) * step]! - levels[start + i * step]!);
      const sharp = Math.abs(levels[start + (i + REACH + 1) * step]! - levels[start + (i + REACH) * step]!) * reach;
      total += sharp;
      if (sharp > blurred) lost += sharp - blurred;
    }
  }
  return total === 0 ? 0 : lost / total;
}

/** Share of 16-pixel squares whose grey levels differ by 24 or more, 0 to 1. */
export function textureOf(grey: Grey): number {
  const rows = Math.floor(grey.rows / SQUARE);
  const cols = Math.floor(grey.cols / SQUARE);
  if (rows === 0 || cols === 0) return 0;
  let structured = 0;
  for (let row = 0; row < rows; row += 1) {
    for (let col = 0; col < cols; col += 1) structured += spreadOf(grey, row, col) >= STRUCTURE ? 1 : 0;
  }
  return structured / (rows * cols);
}

function spreadOf(grey: Grey, row: number, col: number): number {
  let lowest = 255;
  let highest = 0;
  for (let y = row * SQUARE; y < (row + 1) * SQUARE; y += 1) {
    for (let x = col * SQUARE; x < (col + 1) * SQUARE; x += 1) {
      const level = grey.levels[y * grey.cols + x]!;
      lowest = Math.min(lowest, level);
      highest = Math.max(highest, level);
    }
  }
  return highest - lowest;
}
