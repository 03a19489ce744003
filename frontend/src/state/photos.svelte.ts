/** From a file to a kept photo: looked at, hashed, kept as taken, and noted in the record. */
import { uuidv7 } from "uuidv7";
import { ADVICE, gateSize, greyOf, readGate, type GateReading } from "../camera/gate";
import { sha256Hex } from "../camera/hash";
import { DAMAGED, NotAPhoto, readPicture, type Picture } from "../camera/picture";
import type { PhotoPurpose } from "../store/document";
import { keepPhoto, photoBySha } from "../store/photos";
import { isoWithOffset } from "./clock.svelte";
import { newCarton } from "./start_document";
import { cartonAt } from "./steps";
import type { Walk } from "./walk.svelte";

export interface Shot {
  bytes: ArrayBuffer;
  picture: Picture;
  gate: GateReading;
  /** What to do about a blurred, dark or glared shot; null when it can be used. */
  refusal: string | null;
}

/** Read the file and judge the shot. Throws NotAPhoto with its sentence. */
export async function lookAtPhoto(file: Blob): Promise<Shot> {
  const bytes = await file.arrayBuffer();
  const picture = readPicture(bytes);
  const gate = await gateOf(bytes, picture);
  return { bytes, picture, gate, refusal: gate.verdict === "usable" ? null : ADVICE[gate.verdict] };
}

/** What the gate measures; a format that this browser cannot show (HEIC) is left to the server's eye. */
async function gateOf(bytes: ArrayBuffer, picture: Picture): Promise<GateReading> {
  const { cols, rows } = gateSize(picture.width, picture.height);
  const blob = new Blob([bytes], { type: picture.type });
  const options: ImageBitmapOptions = { resizeWidth: cols, resizeHeight: rows, resizeQuality: "medium", imageOrientation: "none" };
  const bitmap = await createImageBitmap(blob, options).catch(() => null);
  if (!bitmap) {
    if (picture.type !== "image/heic") throw new NotAPhoto("PHOTO-DAMAGED", DAMAGED);
    return { sharpness: 0, exposure: 0, glare: 0, texture: 0, verdict: "usable" };
  }
  const canvas = document.createElement("canvas");
  canvas.width = bitmap.width;
  canvas.height = bitmap.height;
  const context = canvas.getContext("2d", { willReadFrequently: true })!;
  context.drawImage(bitmap, 0, 0);
  const pixels = context.getImageData(0, 0, bitmap.width, bitmap.height);
  bitmap.close();
  const grey = greyOf(pixels.data, pixels.width, pixels.height);
  return readGate(grey, Math.min(picture.width, picture.height));
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
