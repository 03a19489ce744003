/** What each step is called in the list, and its answer in a few words. */
import type { Walk } from "../../state/walk.svelte";
import type { Step, StepKind } from "../../state/steps";
import { answersOf, checksOfStep } from "../../state/plain_checks";
import { answerShown, faultsShown } from "./checks";
import { MARKS_SAID, SUGGESTIONS } from "./choices";
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
      return checksOfStep("load")
        .map((check) => answerShown(check, body.vehicle.load))
        .join(", ");
    case "draw":
      return `Cartons ${[...line!.sampling!.positions, ...(line!.sampling!.more ?? [])].join(", ")}`;
    case "label":
      return (
        [carton!.label!.lot, carton!.label!.best_before && `best before ${dayShown(carton!.label!.best_before)}`]
          .filter(Boolean)
          .join(", ") || "read"
      );
    case "lid":
    case "faults": {
      const checks = checksOfStep(step.kind, walk.specification(line!));
      const told = faultsShown(checks, answersOf(carton, checks));
      return step.kind === "faults" && carton!.odour === null ? `${told}, not smelled` : told;
    }
    case "temperature":
      return readingShown(carton!.temperature!.product);
    case "pieces":
      return `${carton!.looked_at} pieces`;
    case "weigh":
      return `${readingShown(carton!.sample!.weight)} ${carton!.sample!.weight_is === "glazed" ? "with" : "without"} glaze`;
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
