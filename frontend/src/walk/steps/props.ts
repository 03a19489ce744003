import type { Step } from "../../state/steps";
import type { Walk } from "../../state/walk.svelte";

/** What every question gets: the delivery, its own step, and how to go on. */
export interface StepProps {
  walk: Walk;
  step: Step;
  /** Call when the answer is recorded; `wasAnswered` when it replaced an earlier one. */
  onDone: (wasAnswered: boolean) => void;
}
