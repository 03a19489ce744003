/** Screens that the first questions do not need; the walk fetches them together, while the docket is typed in. */
export { default as ConflictChoice } from "./ConflictChoice.svelte";
export { default as ProcedurePage } from "./ProcedurePage.svelte";
export { default as PutAway } from "./PutAway.svelte";
export { default as SignedRecord } from "./Record.svelte";
export { default as decide } from "./steps/Decide.svelte";
export { default as faults } from "./steps/Faults.svelte";
export { default as label } from "./steps/Label.svelte";
export { default as lid } from "./steps/UnderLid.svelte";
export { default as marks } from "./steps/Marks.svelte";
export { default as photos } from "./steps/Photos.svelte";
export { default as pieces } from "./steps/Pieces.svelte";
export { default as sign } from "./steps/Sign.svelte";
export { default as temperature } from "./steps/Temperature.svelte";
export { default as weigh } from "./steps/Weigh.svelte";
export { default as wording } from "./steps/Wording.svelte";
