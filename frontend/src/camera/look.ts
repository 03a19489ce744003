/** One photo looked at, in a worker where there is one: what it is, its hash, the gate's reading, a thumbnail. */
import { GATE_SIDE, gateSize, greyOf, readGate, type GateReading } from "./gate";
import { sha256Hex } from "./hash";
import { DAMAGED, NotAPhoto, readPicture, type Picture } from "./picture";

/** Longest side of a thumbnail, px: enough for one of 52 CSS pixels, cropped to a square, at three to one. */
export const THUMB_SIDE = 256;

export interface Looked {
  bytes: ArrayBuffer;
  sha256: string;
  picture: Picture;
  gate: GateReading;
  /** A JPEG; null where this browser cannot show the format (HEIC). */
  thumb: ArrayBuffer | null;
}

/** Read and judge a file. Throws NotAPhoto with its sentence. */
export async function look(file: Blob): Promise<Looked> {
  const bytes = await file.arrayBuffer();
  const picture = readPicture(bytes);
  const sha256 = await sha256Hex(bytes);
  const small = await scaledDown(file.slice(0, file.size, picture.type), bytes, picture);
  if (!small) {
    if (picture.type !== "image/heic") throw new NotAPhoto("PHOTO-DAMAGED", DAMAGED);
    // what this browser cannot show is left to the server's eye
    return { bytes, sha256, picture, gate: { sharpness: 0, exposure: 0, glare: 0, texture: 0, verdict: "usable" }, thumb: null };
  }
  const { cols, rows } = gateSize(small.width, small.height);
  const pixels = drawn(small, cols, rows).context.getImageData(0, 0, cols, rows);
  const gate = readGate(greyOf(pixels.data, cols, rows), Math.min(picture.width, picture.height));
  const thumb = await thumbOf(small);
  small.close();
  return { bytes, sha256, picture, gate, thumb };
}

/**
 * The photo turned upright, at the gate's size.
 *
 * Scaled by the decoder, so that no more than one whole picture is held at a time. Which way up it stands is known only
 * afterwards: a standing one comes out too tall and is asked for again, by its height.
 */
async function scaledDown(file: Blob, bytes: ArrayBuffer, picture: Picture): Promise<ImageBitmap | null> {
  const side = Math.min(GATE_SIDE, Math.max(picture.width, picture.height));
  const frame = await smallFrame(bytes, picture);
  const by = (wanted: ImageBitmapOptions) => createImageBitmap(frame ?? file, { ...wanted, resizeQuality: "medium" }).catch(() => null);
  if (frame) {
    const isStanding = frame.displayHeight > frame.displayWidth;
    return by(isStanding ? { resizeHeight: side } : { resizeWidth: side }).finally(() => frame.close());
  }
  const lying = await by({ resizeWidth: side });
  if (!lying || lying.height <= lying.width) return lying;
  lying.close();
  return by({ resizeHeight: side });
}

/**
 * A JPEG decoded at a half, a quarter or an eighth, as its blocks of 8 × 8 allow (ITU-T T.81, A.3.3): 3 MB where the whole
 * picture takes 49. Null where the browser offers no such decoder, or cannot read the file; the other way then says so.
 */
async function smallFrame(data: ArrayBuffer, { type, width, height }: Picture): Promise<VideoFrame | null> {
  if (type !== "image/jpeg" || !globalThis.ImageDecoder) return null;
  const by = [8, 4, 2].find((part) => Math.max(width, height) / part >= GATE_SIDE) ?? 1;
  const decoder = new ImageDecoder({ data, type, desiredWidth: Math.ceil(width / by), desiredHeight: Math.ceil(height / by) });
  const decoded = await decoder.decode().catch(() => null);
  decoder.close();
  return decoded?.image ?? null;
}

async function thumbOf(small: ImageBitmap): Promise<ArrayBuffer> {
  const scale = Math.min(1, THUMB_SIDE / Math.max(small.width, small.height));
  const side = (length: number) => Math.max(1, Math.round(length * scale));
  const { canvas } = drawn(small, side(small.width), side(small.height));
  const wanted = { type: "image/jpeg", quality: 0.8 };
  if ("convertToBlob" in canvas) return (await canvas.convertToBlob(wanted)).arrayBuffer();
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, wanted.type, wanted.quality));
  if (!blob) throw new Error("no thumbnail");
  return blob.arrayBuffer();
}

function drawn(bitmap: ImageBitmap, cols: number, rows: number) {
  const canvas = globalThis.OffscreenCanvas ? new OffscreenCanvas(cols, rows) : document.createElement("canvas");
  [canvas.width, canvas.height] = [cols, rows];
  const context = canvas.getContext("2d", { willReadFrequently: true }) as OffscreenCanvasRenderingContext2D | CanvasRenderingContext2D;
  context.drawImage(bitmap, 0, 0, cols, rows);
  return { canvas, context };
}
