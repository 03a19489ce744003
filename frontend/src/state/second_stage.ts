/** What stands between taking a line and refusing it: more cartons of the same draw, labels sorted, no time for either. */
import type { Line, SamplingDrawn } from "../store/document";
import { drawMore } from "../trade/drawing";
import { positionsOf } from "./steps";

/** The draw with so many further cartons, by the same seed, none that is open or drawn already. */
export function withMore(line: Line, cartons: number): SamplingDrawn {
  const drawn = line.sampling!;
  const lot = line.cartons_counted ?? line.cartons_on_docket;
  const more = drawMore(lot, positionsOf(line), cartons, drawn.seed);
  return { ...drawn, more: [...(drawn.more ?? []), ...more] };
}

/** The draw with these cartons beside it, such as the neighbours of one that was warm. */
export function withBeside(line: Line, positions: readonly number[]): SamplingDrawn {
  const known = positionsOf(line);
  const beside = positions.filter((position) => !known.includes(position));
  return { ...line.sampling!, more: [...(line.sampling!.more ?? []), ...beside] };
}
