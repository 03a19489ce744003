// Mirror of inspections/trade/exposure.py. Logger files are parsed on the server (loggers.py).

import { naturalExp, naturalLog } from "./exponentials";
import { TOLERANCES } from "./glaze";
import { type Facts, UnusableReading } from "./quantities";

export const LIFE = TOLERANCES.storage_life;
export const KELVIN = 273.15;
export const ACTIVATION_K = 10000;
export const GAP_FACTOR = 4;

export type Logged = { at_s: number; celsius: number };
export type Excursion = { from_s: number; to_s: number; warmest_c: number };
export type LifeProduct = keyof typeof LIFE.products;

export const excursionMinutes = (excursion: Excursion): number => (excursion.to_s - excursion.from_s) / 60;

export function meanKineticC(celsius: readonly number[], weights: readonly number[] | null = null): number {
  const times = weights ?? celsius.map(() => 1);
  if (times.length !== celsius.length || times.some((time) => !(time >= 0))) throw new UnusableReading("EXPO-01");
  let top = 0;
  let total = 0;
  celsius.forEach((each, place) => {
    top = top + times[place]! * rate(each);
    total = total + times[place]!;
  });
  return fromRate(top, total);
}

export function usualIntervalS(logged: readonly Logged[]): number {
  const steps = pairs(logged)
    .map(([before, after]) => after.at_s - before.at_s)
    .sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 2)] ?? 0;
}

export function stretches(logged: readonly Logged[], gapFactor: number = GAP_FACTOR): [Logged, Logged][] {
  const longest = usualIntervalS(logged) * gapFactor;
  return pairs(logged).filter(([before, after]) => after.at_s - before.at_s <= longest);
}

export function gapMinutes(logged: readonly Logged[], gapFactor: number = GAP_FACTOR): number {
  const longest = usualIntervalS(logged) * gapFactor;
  let total = 0;
  for (const [before, after] of pairs(logged)) {
    if (after.at_s - before.at_s > longest) total = total + (after.at_s - before.at_s);
  }
  return total / 60;
}

export function minutesAbove(logged: readonly Logged[], limitC: number): number {
  let total = 0;
  for (const [before, after] of stretches(logged)) {
    total = total + (after.at_s - before.at_s) * shareAbove(before.celsius, after.celsius, limitC);
  }
  return total / 60;
}

export function excursions(logged: readonly Logged[], limitC: number): Excursion[] {
  const found: Excursion[] = [];
  let last: Logged | null = null;
  for (const [before, after] of stretches(logged)) {
    const share = shareAbove(before.celsius, after.celsius, limitC);
    if (share > 0) {
      const length = (after.at_s - before.at_s) * share;
      const fromS = before.celsius > limitC ? before.at_s : after.at_s - length;
      const toS = after.celsius > limitC ? after.at_s : before.at_s + length;
      const warmer = Math.max(before.celsius, after.celsius);
      const open = found.at(-1);
      if (open !== undefined && last === before && before.celsius > limitC) {
        open.to_s = toS;
        open.warmest_c = Math.max(open.warmest_c, warmer);
      } else found.push({ from_s: fromS, to_s: toS, warmest_c: warmer });
    }
    last = after;
  }
  return found;
}

export function meanKineticOf(logged: readonly Logged[]): number {
  if (logged.length === 1) return meanKineticC([logged[0]!.celsius]);
  let top = 0;
  let total = 0;
  for (const [before, after] of stretches(logged)) {
    const time = after.at_s - before.at_s;
    top = top + time * ((rate(before.celsius) + rate(after.celsius)) / 2);
    total = total + time;
  }
  return fromRate(top, total);
}

export function storageLifeMonths(celsius: number, points: readonly number[][]): number {
  const coldest = points.at(-1)!;
  if (celsius <= coldest[0]!) return coldest[1]!;
  let warm = points[0]!;
  let cold = points[1]!;
  for (let place = 1; place < points.length - 1; place++) {
    if (celsius < points[place]![0]!) [warm, cold] = [points[place]!, points[place + 1]!];
  }
  const share = (celsius - warm[0]!) / (cold[0]! - warm[0]!);
  const logWarm = naturalLog(warm[1]!);
  const logCold = naturalLog(cold[1]!);
  return naturalExp(logWarm + share * (logCold - logWarm));
}

export function lifeUsed(spells: readonly (readonly number[])[], points: readonly number[][]): number {
  let total = 0;
  for (const [days, celsius] of spells) {
    total = total + days! / (LIFE.days_per_month * storageLifeMonths(celsius!, points));
  }
  return total;
}

export function lifeUsedOf(logged: readonly Logged[], product: string): number {
  const row = Object.hasOwn(LIFE.products, product) ? LIFE.products[product as LifeProduct] : undefined;
  if (row === undefined) throw new UnusableReading("EXPO-02", { product });
  const spells = stretches(logged).map(([before, after]) => [
    (after.at_s - before.at_s) / 86400,
    (before.celsius + after.celsius) / 2,
  ]);
  return lifeUsed(spells, row.points);
}

export function explainExposure(logged: readonly Logged[], limitsC: readonly number[], product: string): Facts {
  return {
    formula: "MKT = 10000 / -ln(sum(w exp(-10000 / T)) / sum(w)); life used = sum(days / (30.4375 x life))",
    numbers: {
      readings: logged.length,
      warmest_c: logged.length > 0 ? logged.reduce((best, each) => (each.celsius > best ? each.celsius : best), -Infinity) : null,
      mean_kinetic_c: meanKineticOf(logged),
      life_used: lifeUsedOf(logged, product),
      gap_minutes: gapMinutes(logged),
      minutes_above: limitsC.map((limitC) => ({ limit_c: limitC, minutes: minutesAbove(logged, limitC) })),
    },
    limit: { limits_c: [...limitsC], product },
    source: [TOLERANCES.basis.mkt, TOLERANCES.basis.life],
  };
}

function pairs(logged: readonly Logged[]): [Logged, Logged][] {
  return logged.slice(1).map((after, place) => [logged[place]!, after]);
}

function rate(celsius: number): number {
  if (!(celsius >= -200 && celsius <= 200)) throw new UnusableReading("EXPO-01");
  return naturalExp(-ACTIVATION_K / (celsius + KELVIN));
}

function fromRate(top: number, total: number): number {
  if (!(total > 0)) throw new UnusableReading("EXPO-01");
  return ACTIVATION_K / -naturalLog(top / total) - KELVIN;
}

function shareAbove(beforeC: number, afterC: number, limitC: number): number {
  if (beforeC > limitC && afterC > limitC) return 1;
  if (beforeC <= limitC && afterC <= limitC) return 0;
  const [warm, cold] = beforeC > afterC ? [beforeC, afterC] : [afterC, beforeC];
  if (cold === limitC) return 1;
  return (warm - limitC) / (warm - cold);
}
