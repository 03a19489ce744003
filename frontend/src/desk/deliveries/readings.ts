/** Which numbers of a carton are shown against which bounds: every reading taken, fine ones too. */
import { t } from "../../messages/desk";
import type { Carton, CartonVerdict, Limit, LimitSet, Reading, Specification } from "../../trade/types";
import { ROUNDING_G, toleranceFor } from "../../trade/shortage";
import { MOST_UNITS_ON_SCALE, UNIT_STEPS } from "../../trade/weight";
import { typeset } from "../../trade/wording";
import type { Bound } from "../parts/scale";
import { tradeWord } from "../words";

export interface Shown {
  key: string;
  name: string;
  measured: number;
  unit: string;
  bounds: Bound[];
  entered: string;
}

interface Plan {
  key: string;
  name: string;
  unit: string;
  /** Limit codes with what lies beyond each, in words. */
  against: readonly [code: string, beyond: string][];
  entered?: (carton: Carton) => Reading | null | undefined;
}

const PAST = t("desk-readings-past-limit");
const PLANS: readonly Plan[] = [
  {
    key: "product_c",
    name: t("desk-readings-product-temperature"),
    unit: "C",
    against: [
      ["product_c.within", t("desk-readings-inside-transport-tolerance")],
      ["product_c.tolerance", t("desk-readings-outside-tolerance")],
      ["product_c.reject", t("desk-readings-refuse")],
    ],
    entered: (carton) => carton.temperature?.product,
  },
  { key: "black_share", name: t("desk-readings-prawns-with-black-spot"), unit: "share", against: [["black_spot_share", PAST]] },
  { key: "uniformity", name: t("desk-readings-uniformity"), unit: "ratio", against: [["uniformity", PAST]] },
  { key: "life_share", name: t("desk-readings-life-left"), unit: "share", against: [["life_share", PAST]] },
];

/** The limit in force for a line: the set's, with the specification's own bound laid over. */
export function inForce(code: string, set: LimitSet, specification: Specification | null): Limit | null {
  const limit = set.limits.find((one) => one.code === code) ?? null;
  const own = specification?.overrides?.[code];
  return limit && own !== undefined ? { ...limit, bound: own } : limit;
}

export function readingsOf(carton: Carton | null, verdict: CartonVerdict, set: LimitSet, specification: Specification | null): Shown[] {
  const byOneBound = PLANS.flatMap((plan) => {
    const bounds = plan.against.flatMap(([code, beyond]) => asBound(inForce(code, set, specification), beyond));
    return against(bounds, plan, carton, verdict);
  });
  return specification ? [...byOneBound, ...byOrder(carton, verdict, set, specification)] : byOneBound;
}

function against(bounds: Bound[], plan: Omit<Plan, "against">, carton: Carton | null, verdict: CartonVerdict): Shown[] {
  const measured = verdict.derived[plan.key];
  if (measured === null || measured === undefined || !bounds.length) return [];
  const entry = carton && plan.entered?.(carton);
  return [{ key: plan.key, name: plan.name, unit: plan.unit, measured, bounds, entered: entry ? enteredWords(entry) : "" }];
}

/** Net weight and glaze: their bounds lie as far from what was ordered as the limits say. */
function byOrder(carton: Carton | null, verdict: CartonVerdict, set: LimitSet, specification: Specification): Shown[] {
  const net = { key: "net_g", name: t("desk-readings-net-without-glaze"), unit: "g", entered: (one: Carton) => one.weights?.deglazed };
  const glaze = { key: "glaze_percent", name: t("desk-readings-glaze"), unit: "percent" };
  return [
    ...against(netBounds(verdict.derived.net_g ?? 0, set, specification), net, carton, verdict),
    ...against(glazeBounds(set, specification), glaze, carton, verdict),
  ];
}
/** The least that one unit may weigh, by the table of its market; none for more than one unit on the scale. */
function netBounds(netG: number, set: LimitSet, specification: Specification): Bound[] {
  const declaredG = specification.carton_net_g / specification.units_per_carton;
  if (!(declaredG > 0) || netG > declaredG * MOST_UNITS_ON_SCALE) return [];
  const tolerance = toleranceFor(specification.market, declaredG);
  if (tolerance === null) return [];
  return UNIT_STEPS[tolerance.table].flatMap(([code, finding]) => {
    const [limit] = asBound(inForce(code, set, specification), finding === "NET-UNIT" ? PAST : t("desk-readings-noted-as-short"));
    return limit ? [{ ...limit, bound: declaredG - limit.bound * tolerance.tolerable_g - ROUNDING_G, sense: "at_least" as const }] : [];
  });
}
function glazeBounds(set: LimitSet, specification: Specification): Bound[] {
  const declared = specification.declared_glaze_percent;
  const bounds = asBound(inForce("glaze_over_percent", set, specification), PAST);
  return declared === null ? [] : bounds.map((limit) => ({ ...limit, bound: declared + limit.bound }));
}

function asBound(limit: Limit | null, beyond: string): Bound[] {
  if (!limit || limit.bound === null || limit.sense === "none") return [];
  return [{ bound: limit.bound, sense: limit.sense, severity: limit.severity, beyond }];
}

/** The entry as it was made, in its own unit (CV-0-04); its sign as it is printed. */
export function enteredWords(reading: Reading): string {
  const unit = { C: "°C", F: "°F", percent: "%", pieces: "prawns" }[reading.unit as string] ?? reading.unit;
  return typeset(`${reading.entered} ${unit}`);
}

const DERIVED_NAMES: Record<string, [name: string, unit: string]> = {
  count_per_lb: [t("desk-readings-count"), "per_lb"],
  count_per_kg: [t("desk-readings-count"), "per_kg"],
  net_g: [t("desk-readings-net-without-glaze"), "g"],
  glaze_percent: [t("desk-readings-glaze"), "percent"],
  life_days_left: [t("desk-readings-days-best-before"), "days"],
};
/** Derived numbers that are not drawn against a bound: told in words. */
export function numbersOf(
  verdict: CartonVerdict,
  specification: Specification | null,
  drawn: readonly Shown[] = [],
): { key: string; name: string; value: number; unit: string }[] {
  // One count is enough: the one that the grade is written in.
  const other = specification?.grade.includes("kg") ? "count_per_lb" : "count_per_kg";
  return Object.entries(verdict.derived).flatMap(([key, value]) => {
    const known = key === other || drawn.some((bar) => bar.key === key) ? undefined : DERIVED_NAMES[key];
    return known && value !== null ? [{ key, name: known[0], value, unit: known[1] }] : [];
  });
}

export interface CheckWord {
  key: string;
  name: string;
  state: "within" | "beyond" | "not_checked" | "cannot_tell";
  word: string;
}
/** Every check of a carton with its answer; what was not checked is said, never left out (CV-0-06). */
export function checksOf(verdict: CartonVerdict): CheckWord[] {
  return Object.entries(verdict.checks).map(([key, state]) => ({
    key,
    name: tradeWord("not_checked", key),
    state,
    word: tradeWord("check", state),
  }));
}
