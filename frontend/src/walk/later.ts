/** What the first question does not need; the walk fetches it together, while the docket is typed in. */
import "../messages/later";

export { judge } from "../state/judging";
export { procedureAt } from "../state/procedures";
export { default as CheckList } from "./CheckList.svelte";
export { default as ConflictChoice } from "./ConflictChoice.svelte";
export { default as ProcedurePage } from "./ProcedurePage.svelte";
export { default as PutAway } from "./PutAway.svelte";
export { default as SignedRecord } from "./Record.svelte";
export { default as WaitingPage } from "./WaitingPage.svelte";
export { default as air } from "./steps/Air.svelte";
export { default as count } from "./steps/Count.svelte";
export { default as decide } from "./steps/Decide.svelte";
export { default as draw } from "./steps/Draw.svelte";
export { default as faults } from "./steps/Faults.svelte";
export { default as label } from "./steps/Label.svelte";
export { default as lid } from "./steps/UnderLid.svelte";
export { default as lines } from "./steps/Lines.svelte";
export { default as load } from "./steps/Load.svelte";
export { default as marks } from "./steps/Marks.svelte";
export { default as photos } from "./steps/Photos.svelte";
export { default as pieces } from "./steps/Pieces.svelte";
export { default as sign } from "./steps/Sign.svelte";
export { default as temperature } from "./steps/Temperature.svelte";
export { default as weigh } from "./steps/Weigh.svelte";
export { default as Thawed } from "./Thawed.svelte";
