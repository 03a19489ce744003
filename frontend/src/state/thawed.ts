/** A fault found when goods were thawed: which lots are at hand, and keeping it as an addendum of its own. */
import { uuidv7 } from "uuidv7";
import { keepAddendum } from "../store/documents";
import { keepPhoto } from "../store/photos";
import type { LotAtHand, Me } from "../trade/types";
import { WORDS } from "../trade/wording";
import type { ThawedBody } from "../trade/types";
import { scanLabel } from "./scanning";
import type { Shot } from "./photos.svelte";

const plain = (text: string): string => text.toUpperCase().replace(/[^\p{L}\p{N}]/gu, "");

/** Lots of a site that hold what was typed or scanned; all of them where nothing was. A scan that is no label is a lot. */
export function lotsFound(lots: readonly LotAtHand[], siteId: string | undefined, wanted: string): LotAtHand[] {
  const lot = plain(scanLabel(wanted).label.lot || wanted);
  const own = lots.filter(({ site_id }) => site_id === siteId);
  return lot === "" ? own : own.filter((row) => plain(row.lot).includes(lot) || plain(row.docket_number).includes(lot));
}

type Said = Omit<ThawedBody, "photos" | "line_id" | "lot">;
type Words = Record<string, string>;
const told = (WORDS as unknown as { thawed: { faults: Words; how_many: Words } }).thawed;
const asChoices = <T extends string>(words: Words) =>
  Object.entries(words).map(([value, label]) => ({ value: value as T, label, tone: "" as const }));
export const FAULTS = asChoices<ThawedBody["fault"]>(told.faults);
export const HOW_MANY = asChoices<ThawedBody["how_many"]>(told.how_many);

/** The photo's bytes first, then what names them. */
export async function keepThawed(row: LotAtHand, said: Said, shots: readonly Shot[], by: { me: Me; device: string }): Promise<void> {
  for (const { sha256, bytes, picture, thumb } of shots) await keepPhoto({ sha256, bytes, type: picture.type }, row.delivery_id, thumb);
  await keepAddendum({
    id: uuidv7(),
    delivery_id: row.delivery_id,
    kind: "thawed",
    at: new Date().toISOString(),
    person: { person_id: by.me.id, name: by.me.name },
    device_id: by.device,
    body: {
      ...said,
      line_id: row.line_id,
      lot: row.lot,
      photos: shots.map(({ sha256 }) => ({ id: uuidv7(), sha256 })),
    },
  });
}
