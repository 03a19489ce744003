/** What each step is called in the list, and its answer in a few words. */
import type { Walk } from "../../state/walk.svelte";
import type { Step, StepKind } from "../../state/steps";
import { FOREIGN, FROSTS, LINERS, LOADS, MARKS_SAID, ODOURS, SUGGESTIONS, labelOf } from "./choices";
import { dayShown } from "./readings";
import { readingShown } from "./names";

export const STEP_TITLES: Record<StepKind, string> = {
  docket: "Docket number",
  lines: "Lines on the docket",
  count: "Cartons counted",
  air: "Vehicle air",
  load: "State of the load",
  draw: "Which cartons to open",
  label: "Label",
  lid: "Liner and frost",
  temperature: "Temperature",
  pieces: "Pieces in the sample",
  weigh: "Sample weight",
  faults: "Pieces, smell, foreign matter",
  marks: "Species marks",
  photos: "Photos and more checks",
  decide: "Verdict",
  wording: "Words for the docket",
  sign: "Signatures",
};

export function answerOf(walk: Walk, step: Step): string {
  if (step.state === "skipped" && step.kind !== "photos") return step.kind === "lines" ? "done" : "left: not checked";
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
      return `${line!.cartons_counted} of ${line!.cartons_on_docket}`;
    case "air":
      return readingShown(body.vehicle.air);
    case "load":
      return body.vehicle.load ? labelOf(LOADS, body.vehicle.load) : "";
    case "draw":
      return `Cartons ${[...line!.sampling!.positions, ...(line!.sampling!.more ?? [])].join(", ")}`;
    case "label":
      return [carton!.label!.lot, carton!.label!.best_before && `best before ${dayShown(carton!.label!.best_before)}`].filter(Boolean).join(", ") || "read";
    case "lid": {
      if (carton!.liner === "closed" && carton!.frost === "none" && carton!.refreezing?.length === 0) return "all sound";
      const signs = carton!.refreezing?.length ? ", refreezing seen" : "";
      return `liner ${labelOf(LINERS, carton!.liner!).toLowerCase()}, frost ${labelOf(FROSTS, carton!.frost!).toLowerCase()}${signs}`;
    }
    case "temperature":
      return readingShown(carton!.temperature!.product);
    case "pieces":
      return `${carton!.looked_at} pieces`;
    case "weigh":
      return `${readingShown(carton!.sample!.weight)} ${carton!.sample!.weight_is === "glazed" ? "with" : "without"} glaze`;
    case "faults":
      return faultsShown(walk, step);
    case "marks":
      return MARKS_SAID[carton!.marks!.answer];
    case "photos": {
      const count = body.photos.filter((photo) => photo.carton_id === carton?.id).length;
      return count === 1 ? "1 photo" : `${count} photos`;
    }
    case "decide":
      return SUGGESTIONS[line!.decision!.kind].label;
    case "wording":
      return "written";
    case "sign":
      return "signed";
  }
}

function faultsShown(walk: Walk, step: Step): string {
  const carton = walk.carton(step.lineId, step.position)!;
  const found = Object.values(carton.pieces).reduce<number>((sum, count) => sum + (count ?? 0), 0);
  const smell = carton.odour === null ? ", not smelled" : carton.odour === "sound" ? "" : `, smell ${labelOf(ODOURS, carton.odour).toLowerCase()}`;
  const foreign = carton.foreign_matter === "none" ? "" : `, foreign: ${labelOf(FOREIGN, carton.foreign_matter!).toLowerCase()}`;
  return `${found === 0 ? "none" : `${found} found`}${smell}${foreign}`;
}
