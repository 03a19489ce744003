/** From a file to a kept photo: looked at, hashed, kept as taken, and noted in the record. */
import { t } from "../messages";
import { uuidv7 } from "uuidv7";
import { ADVICE } from "../camera/gate";
import type { Looked } from "../camera/look";
import { lookAt } from "../camera/looking";
import type { PhotoPurpose } from "../store/document";
import { keepPhoto, keepThumb, photoBySha, thumbBySha } from "../store/photos";
import { isoWithOffset } from "./clock.svelte";
import { newCarton } from "./start_document";
import { cartonAt } from "./steps";
import type { Walk } from "./walk.svelte";

export interface Shot extends Looked {
  /** What to do about a blurred, dark or glared shot; null when it can be used. */
  refusal: string | null;
}

/** Read the file and judge the shot. Throws NotAPhoto with its sentence. */
export async function lookAtPhoto(file: Blob): Promise<Shot> {
  const looked = await lookAt(file);
  const { verdict } = looked.gate;
  return { ...looked, refusal: verdict === "usable" ? null : ADVICE[verdict] };
}

export interface PhotoPlace {
  purpose: PhotoPurpose;
  lineId: string | null;
  position: number | null;
}

/** Keep the bytes first, then the record that names them; the other way round could name nothing. */
export async function addPhoto(walk: Walk, shot: Shot, { purpose, lineId, position }: PhotoPlace): Promise<void> {
  const { sha256 } = shot;
  const size = shot.bytes.byteLength;
  await keepPhoto({ sha256, bytes: shot.bytes, type: shot.picture.type }, walk.id, shot.thumb);
  // given back at once: of thirty photos the page would hold dozens until it next clears its memory
  shot.bytes.transfer?.(0);
  await walk.change({
    said: t("dock-photos-said"),
    document: (draft) => {
      const line = draft.lines.find((candidate) => candidate.id === lineId);
      let carton = line && position !== null ? cartonAt(line, position) : null;
      if (line && position !== null && !carton) line.cartons.push((carton = newCarton(position)));
      draft.photos.push({
        id: uuidv7(),
        sha256,
        bytes: size,
        type: shot.picture.type,
        purpose,
        line_id: lineId,
        carton_id: carton?.id ?? null,
        taken_at: isoWithOffset(new Date()),
        gate: shot.gate,
      });
    },
  });
}

/** An address for showing a photo kept on this phone; the caller gives it back. Null when it is gone. */
export async function thumbUrl(sha256: string): Promise<string | null> {
  const kept = await thumbBySha(sha256);
  const thumb = kept ? kept.bytes : await madeLate(sha256);
  return thumb ? URL.createObjectURL(new Blob([thumb], { type: "image/jpeg" })) : null;
}

/** The thumbnail of a photo that an earlier app kept without one. */
async function madeLate(sha256: string): Promise<ArrayBuffer | null> {
  const photo = await photoBySha(sha256);
  if (!photo) return null;
  const { thumb } = await lookAt(new Blob([photo.bytes], { type: photo.type }));
  await keepThumb(sha256, thumb);
  return thumb;
}
