/** What each step is called in the list, and its answer in a few words. */
import { t } from "../../messages";
import type { Walk } from "../../state/walk.svelte";
import type { Step, StepKind } from "../../state/steps";
import { answerAt, answersOf, checksOfStep } from "../../state/plain_checks";
import { answerShown, faultsShown } from "./checks";
import { MARKS_SAID, SUGGESTIONS } from "./choices";
import { dayShown } from "./readings";
import { readingShown } from "./names";

export const STEP_TITLES: Record<StepKind, string> = {
  docket: t("dock-steps-docket"),
  lines: t("dock-steps-lines"),
  count: t("dock-steps-count"),
  air: t("dock-steps-air"),
  load: t("dock-steps-load"),
  draw: t("dock-steps-draw"),
  label: t("dock-steps-label"),
  lid: t("dock-steps-lid"),
  temperature: t("dock-steps-temperature"),
  pieces: t("dock-steps-pieces"),
  weigh: t("dock-steps-weigh"),
  faults: t("dock-steps-faults"),
  marks: t("dock-steps-marks"),
  photos: t("dock-steps-photos"),
  decide: t("dock-steps-decide"),
  sign: t("dock-steps-sign"),
};

export function answerOf(walk: Walk, step: Step): string {
  if (step.state === "skipped" && step.kind !== "photos") return step.kind === "lines" ? t("dock-steps-done") : t("dock-steps-left");
  if (step.state === "open") return "";
  const { body } = walk;
  const line = step.lineId ? walk.line(step.lineId) : null;
  const carton = walk.carton(step.lineId, step.position);
  switch (step.kind) {
    case "docket":
      return body.docket_number;
    case "lines":
      return `${body.lines.length}`;
    case "count":
      return t("dock-steps-counted", { counted: line!.cartons_counted, docket: line!.cartons_on_docket });
    case "air":
      return readingShown(body.vehicle.air);
    case "load":
      return checksOfStep("load")
        .map((check) => answerShown(check, answerAt(body.vehicle, check)))
        .join(", ");
    case "draw":
      return t("dock-steps-drawn", { positions: [...line!.sampling!.positions, ...(line!.sampling!.more ?? [])].join(", ") });
    case "label":
      return (
        [carton!.label!.lot, carton!.label!.best_before && t("dock-steps-best-before", { day_shown: dayShown(carton!.label!.best_before) })]
          .filter(Boolean)
          .join(", ") || t("dock-steps-read")
      );
    case "lid":
    case "faults": {
      const checks = checksOfStep(step.kind, walk.specification(line!));
      const told = faultsShown(checks, answersOf(carton, checks));
      return step.kind === "faults" && carton!.odour === null ? t("dock-steps-not-smelled", { told }) : told;
    }
    case "temperature":
      return readingShown(carton!.temperature!.product);
    case "pieces":
      return t("dock-steps-looked-at", { count: carton!.looked_at });
    case "weigh":
      return t("dock-steps-weighed", { weight: readingShown(carton!.sample!.weight), kind: carton!.sample!.weight_is ?? "" });
    case "marks":
      return MARKS_SAID[carton!.marks!.answer];
    case "photos": {
      const count = body.photos.filter((photo) => photo.carton_id === carton?.id).length;
      return t("dock-steps-1-photo-photos", { count });
    }
    case "decide":
      return SUGGESTIONS[line!.decision!.kind].label;
    case "sign":
      return t("dock-steps-signed");
  }
}
