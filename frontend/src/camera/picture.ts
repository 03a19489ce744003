/**
 * What a picture file says of itself in its first bytes, before anything decodes it.
 *
 * A file with a picture's name can be text, or can claim so many pixels that decoding it would
 * take the phone down; both are seen here. Formats: JPEG (ITU-T T.81, B.2.2), PNG (W3C, 11.2.2),
 * WebP (RFC 9649), HEIC (ISO/IEC 23008-12, "ispe").
 */
import { t } from "../messages";
export const MAX_BYTES = 40_000_000;
export const MAX_PIXELS = 66_000_000;

export type PictureType = "image/jpeg" | "image/png" | "image/webp" | "image/heic";
export interface Picture {
  type: PictureType;
  width: number;
  height: number;
}

/** Why a file cannot be kept as a photo, as a sentence. */
export class NotAPhoto extends Error {
  constructor(
    readonly code: "PHOTO-EMPTY" | "PHOTO-TOO-LARGE" | "PHOTO-NOT-A-PICTURE" | "PHOTO-DAMAGED" | "PHOTO-TOO-MANY-PIXELS",
    readonly sentence: string,
  ) {
    super(code);
  }
}

const SAFE = t("dock-picture-your-other-entries");
export const DAMAGED = t("dock-picture-photo-cut-off", { safe: SAFE });

/** Read type and size; throws NotAPhoto with the sentence to show. */
export function readPicture(bytes: ArrayBuffer): Picture {
  if (bytes.byteLength === 0) throw new NotAPhoto("PHOTO-EMPTY", t("dock-picture-file-empty-take", { safe: SAFE }));
  if (bytes.byteLength > MAX_BYTES) {
    throw new NotAPhoto("PHOTO-TOO-LARGE", t("dock-picture-file-larger-than", { safe: SAFE }));
  }
  const picture = measured(new DataView(bytes));
  if (picture.width * picture.height > MAX_PIXELS) {
    const millions = Math.round((picture.width * picture.height) / 1e6);
    throw new NotAPhoto("PHOTO-TOO-MANY-PIXELS", t("dock-picture-picture-has-million", { millions, safe: SAFE }));
  }
  return picture;
}

function measured(view: DataView): Picture {
  try {
    const picture = png(view) ?? jpeg(view) ?? webp(view) ?? heic(view);
    if (picture && picture.width > 0 && picture.height > 0) return picture;
    if (picture) throw new RangeError("no size");
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new NotAPhoto("PHOTO-DAMAGED", DAMAGED);
  }
  throw new NotAPhoto("PHOTO-NOT-A-PICTURE", t("dock-picture-file-not-photo", { safe: SAFE }));
}

const text = (view: DataView, at: number, length: number): string => {
  let read = "";
  for (let index = 0; index < length && at + index < view.byteLength; index++) {
    read += String.fromCharCode(view.getUint8(at + index));
  }
  return read;
};

function png(view: DataView): Picture | null {
  if (text(view, 0, 8) !== "\x89PNG\r\n\x1a\n") return null;
  return { type: "image/png", width: view.getUint32(16), height: view.getUint32(20) };
}

function jpeg(view: DataView): Picture | null {
  if (view.byteLength < 4 || view.getUint16(0) !== 0xffd8) return null;
  let at = 2;
  for (;;) {
    while (view.getUint8(at) === 0xff && view.getUint8(at + 1) === 0xff) at++;
    const marker = view.getUint8(at + 1);
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame) return { type: "image/jpeg", height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    if (view.getUint8(at) !== 0xff || marker === 0xda) throw new RangeError("no frame header");
    at += 2 + view.getUint16(at + 2);
  }
}

function webp(view: DataView): Picture | null {
  if (text(view, 0, 4) !== "RIFF" || text(view, 8, 4) !== "WEBP") return null;
  const type = "image/webp";
  const low24 = (at: number) => view.getUint16(at, true) | (view.getUint8(at + 2) << 16);
  switch (text(view, 12, 4)) {
    case "VP8X":
      return { type, width: low24(24) + 1, height: low24(27) + 1 };
    case "VP8L": {
      const bits = view.getUint32(21, true);
      return { type, width: (bits & 0x3fff) + 1, height: ((bits >> 14) & 0x3fff) + 1 };
    }
    default:
      return { type, width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff };
  }
}

function heic(view: DataView): Picture | null {
  if (text(view, 4, 4) !== "ftyp" || !/hei[cxs]|mif1|msf1/.test(text(view, 8, 24))) return null;
  let [width, height] = [0, 0];
  // the largest "ispe" box is the picture, smaller ones are its tiles and its thumbnail
  for (let at = 0; at + 16 <= Math.min(view.byteLength, 65_536); at++) {
    if (view.getUint32(at) !== 0x69737065) continue;
    const [w, h] = [view.getUint32(at + 8), view.getUint32(at + 12)];
    if (w * h > width * height) [width, height] = [w, h];
  }
  return { type: "image/heic", width, height };
}
