// Mirror of inspections/trade/drawing.py; 32-bit words by Math.imul and >>> 0.

import { UnusablePlan } from "./quantities";

const WORD = 0x100000000;
export const FNV_START = 0x811c9dc5;
export const FNV_PRIME = 0x01000193;
const WARM_UP = 12;

export function fnv1a(data: readonly number[], start: number = FNV_START): number {
  let value = start;
  for (const byte of data) value = Math.imul(value ^ byte, FNV_PRIME) >>> 0;
  return value;
}

export function* randomWords(seed: string): Generator<number, never> {
  const data = codeUnitBytes(seed);
  let a = fnv1a(data);
  let b = fnv1a(data, a);
  let c = fnv1a(data, b);
  let counter = 1;
  let rounds = 0;
  for (;;) {
    const word = (a + b + counter) >>> 0;
    counter = (counter + 1) >>> 0;
    a = (b ^ (b >>> 9)) >>> 0;
    b = (c + ((c << 3) >>> 0)) >>> 0;
    c = (((c << 21) | (c >>> 11)) + word) >>> 0;
    rounds = rounds + 1;
    if (rounds > WARM_UP) yield word;
  }
}

export function randomBelow(words: Iterator<number, never>, number: number): number {
  const end = WORD - (WORD % number);
  let word = words.next().value;
  while (word >= end) word = words.next().value;
  return word % number;
}

export function layerSizes(lot: number, layers: number): number[] {
  return Array.from({ length: layers }, (_, i) => Math.floor(lot / layers) + (i < lot % layers ? 1 : 0));
}

export function drawPositions(lot: number, n: number, seed: string, layers = 1): number[] {
  if (lot < 1 || !(n >= 0 && n <= lot)) throw new UnusablePlan("SAMPLE-04", { lot, bad: 0, opened: n });
  if (layers < 1) throw new UnusablePlan("SAMPLE-05", { layers });
  const words = randomWords(seed);
  const sizes = layerSizes(lot, Math.min(layers, lot));
  const shares = sizes.map(() => Math.floor(n / sizes.length));
  const roomy = sizes.map((_, place) => place + 1).filter((layer) => sizes[layer - 1]! > shares[layer - 1]!);
  for (const layer of take(words, roomy, n % sizes.length)) shares[layer - 1]! += 1;
  const positions: number[] = [];
  let first = 1;
  sizes.forEach((size, place) => {
    const items = Array.from({ length: size }, (_, i) => first + i);
    positions.push(...take(words, items, shares[place]!));
    first = first + size;
  });
  return positions.sort((a, b) => a - b);
}

export function drawMore(lot: number, opened: readonly number[], n: number, seed: string): number[] {
  const left = Array.from({ length: lot }, (_, i) => i + 1).filter((position) => !opened.includes(position));
  return take(randomWords(`${seed} 2`), left, Math.min(n, left.length)).sort((a, b) => a - b);
}

function take(words: Iterator<number, never>, items: number[], number: number): number[] {
  for (let i = 0; i < number; i++) {
    const j = i + randomBelow(words, items.length - i);
    [items[i], items[j]] = [items[j]!, items[i]!];
  }
  return items.slice(0, number);
}

function codeUnitBytes(text: string): number[] {
  const bytes: number[] = [];
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    bytes.push(unit & 0xff, unit >>> 8);
  }
  return bytes;
}
