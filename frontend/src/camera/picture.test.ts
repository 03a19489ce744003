import { expect, test } from "vitest";
import { createHash } from "node:crypto";
import { sha256Hex } from "./hash";
import { MAX_BYTES, NotAPhoto, readPicture } from "./picture";

const bytes = (...values: number[]) => new Uint8Array(values).buffer;
const text = (value: string) => [...value].map((letter) => letter.charCodeAt(0));
const four = (value: number) => [value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];
/** A JPEG's opening up to its frame header (ITU-T T.81, B.2.2), with an APP1 before it. */
const jpeg = (width: number, height: number, frame = 0xc2) =>
  bytes(0xff, 0xd8, 0xff, 0xe1, 0, 4, 1, 2, 0xff, frame, 0, 17, 8, height >> 8, height & 255, width >> 8, width & 255, 3);
const png = (width: number, height: number) =>
  bytes(0x89, ...text("PNG\r\n"), 0x1a, 0x0a, ...four(13), ...text("IHDR"), ...four(width), ...four(height), 8, 2);

const codeOf = (buffer: ArrayBuffer): string => {
  try {
    readPicture(buffer);
    return "";
  } catch (error) {
    expect(error).toBeInstanceOf(NotAPhoto);
    expect((error as NotAPhoto).sentence).toMatch(/\. .*(kept)\. .+\.$/);
    return (error as NotAPhoto).code;
  }
};

test("type and size are read from the first bytes", () => {
  expect(readPicture(jpeg(4032, 3024))).toEqual({ type: "image/jpeg", width: 4032, height: 3024 });
  expect(readPicture(png(1200, 900))).toEqual({ type: "image/png", width: 1200, height: 900 });
  const vp8x = bytes(...text("RIFF"), 0, 0, 0, 0, ...text("WEBPVP8X"), 10, 0, 0, 0, 0, 0, 0, 0, 0x9f, 0x0f, 0, 0xb7, 0x0b, 0);
  expect(readPicture(vp8x)).toEqual({ type: "image/webp", width: 4000, height: 3000 });
  const heic = bytes(
    ...four(24),
    ...text("ftypheic"),
    ...four(0),
    ...text("mif1"),
    ...four(20),
    ...text("ispe"),
    ...four(0),
    ...four(512),
    ...four(512),
    ...four(20),
    ...text("ispe"),
    ...four(0),
    ...four(4032),
    ...four(3024),
  );
  expect(readPicture(heic)).toEqual({ type: "image/heic", width: 4032, height: 3024 });
});

test("a text file with a picture's name, an empty file and a cut-off one get a sentence each", () => {
  expect(codeOf(bytes(...text("this is no picture at all")))).toBe("PHOTO-NOT-A-PICTURE");
  expect(codeOf(bytes())).toBe("PHOTO-EMPTY");
  expect(codeOf(jpeg(4032, 3024).slice(0, 12))).toBe("PHOTO-DAMAGED");
  expect(codeOf(png(1200, 900).slice(0, 18))).toBe("PHOTO-DAMAGED");
});

test("a 200-megapixel picture is refused before anything decodes it; 66 million is the end point", () => {
  expect(codeOf(jpeg(20000, 10000))).toBe("PHOTO-TOO-MANY-PIXELS");
  expect(codeOf(png(66_000, 1000))).toBe("");
  expect(codeOf(png(66_001, 1000))).toBe("PHOTO-TOO-MANY-PIXELS");
  expect(codeOf(new ArrayBuffer(MAX_BYTES + 1))).toBe("PHOTO-TOO-LARGE");
});

// FIPS 180-4 / NIST example "abc"
test("the hash is the same with and without the browser's own", async () => {
  const abc = new TextEncoder().encode("abc").buffer as ArrayBuffer;
  const published = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
  expect(await sha256Hex(abc)).toBe(published);
  expect(await sha256Hex(abc, undefined as never)).toBe(published);
  expect(createHash("sha256").update(new Uint8Array(abc)).digest("hex")).toBe(published);
});
