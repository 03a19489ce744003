// @vitest-environment node
import { afterEach, beforeEach, expect, test, vi } from "vitest";

/** A PNG's opening (W3C, 11.2.2): 1600 × 1200, enough for what is read before decoding. */
const PNG = new Uint8Array([
  0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52, 0, 0, 6, 64, 0, 0, 4, 176, 8, 2,
]);
const file = () => new Blob([PNG]);

/** A browser's decoder and canvas, as far as they are asked: even grey, and a note of every bitmap still open. */
const open = new Set<object>();
const asked: string[] = [];
class Canvas {
  constructor(
    public width: number,
    public height: number,
  ) {}
  getContext = () => ({
    drawImage: (_: unknown, x: number, y: number, cols: number, rows: number) => void asked.push(`${x},${y} ${cols}×${rows}`),
    getImageData: (_x: number, _y: number, cols: number, rows: number) => ({ data: new Uint8ClampedArray(cols * rows * 4).fill(128) }),
  });
  convertToBlob = async ({ type }: { type: string }) => new Blob(["thumb"], { type });
}
let aspect = 4 / 3;
function decoder(_file: Blob, { resizeWidth, resizeHeight }: ImageBitmapOptions) {
  const [width, height] = [resizeWidth ?? resizeHeight! * aspect, resizeHeight ?? resizeWidth! / aspect];
  const bitmap = { width, height, close: () => void open.delete(bitmap) };
  open.add(bitmap);
  asked.push("decoded");
  return Promise.resolve(bitmap);
}

beforeEach(() => {
  vi.resetModules();
  open.clear();
  asked.length = 0;
  vi.stubGlobal("createImageBitmap", vi.fn(decoder));
  vi.stubGlobal("OffscreenCanvas", Canvas);
});
afterEach(() => vi.unstubAllGlobals());

test("one decoding gives the gate's reading and a thumbnail, and no bitmap stays open", async () => {
  const { look } = await import("./look");
  const looked = await look(file());
  expect(asked).toEqual(["decoded", "0,0 640×480", "0,0 256×192"]);
  expect(new TextDecoder().decode(looked.thumb!)).toBe("thumb");
  expect(looked.gate.verdict).toBe("empty");
  expect(looked.picture).toEqual({ type: "image/png", width: 1600, height: 1200 });
  expect(open.size).toBe(0);
});

test("a picture that stands by its orientation tag has its long side at the gate's size too", async () => {
  aspect = 3 / 4;
  const { look } = await import("./look");
  await look(file());
  aspect = 4 / 3;
  expect(asked).toEqual(["decoded", "decoded", "0,0 480×640", "0,0 192×256"]);
  expect(open.size).toBe(0);
});

test("a JPEG is decoded at a part of its size where the browser can, and no frame stays open", async () => {
  // SOI and a frame header (ITU-T T.81, B.2.2) of 4032 × 3024
  const jpeg = new Uint8Array([0xff, 0xd8, 0xff, 0xc0, 0, 17, 8, 0x0b, 0xd0, 0x0f, 0xc0, 3]);
  const frame = { displayWidth: 756, displayHeight: 1008, close: () => void open.delete(frame) };
  vi.stubGlobal(
    "ImageDecoder",
    class {
      constructor({ desiredWidth, desiredHeight }: ImageDecoderInit) {
        asked.push(`${desiredWidth}×${desiredHeight}`);
      }
      decode = async () => ({ image: (open.add(frame), frame) });
      close = () => void asked.push("closed");
    },
  );
  const { look } = await import("./look");
  aspect = 3 / 4;
  await look(new Blob([jpeg]));
  aspect = 4 / 3;
  expect(asked).toEqual(["1008×756", "closed", "decoded", "0,0 480×640", "0,0 192×256"]);
  expect(open.size).toBe(0);
});

test("what cannot be decoded is a damaged photo; HEIC is left to the server's eye, without a thumbnail", async () => {
  vi.stubGlobal("createImageBitmap", () => Promise.reject(new Error("no decoder")));
  const { look } = await import("./look");
  await expect(look(file())).rejects.toMatchObject({ code: "PHOTO-DAMAGED" });
  const four = (value: number) => [value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];
  const heic = new Uint8Array([
    ...four(24),
    ...Buffer.from("ftypheic"),
    ...four(0),
    ...Buffer.from("mif1"),
    ...four(20),
    ...Buffer.from("ispe"),
    ...four(0),
    ...four(4032),
    ...four(3024),
  ]);
  expect(await look(new Blob([heic]))).toMatchObject({ thumb: null, gate: { verdict: "usable" } });
});

/** A worker that answers by itself, or cannot be started. */
function workerThat(answers: (data: unknown) => unknown) {
  return class {
    onmessage: ((event: { data: unknown }) => void) | null = null;
    onerror: (() => void) | null = null;
    postMessage(data: unknown): void {
      const answer = answers(data);
      queueMicrotask(() => (answer === undefined ? this.onerror?.() : this.onmessage?.({ data: answer })));
    }
  };
}

test("photos go to the worker one after another, and its refusals come back as sentences", async () => {
  let number = 0;
  const answers = [
    { looked: { sha256: "one" } },
    { code: "PHOTO-EMPTY", sentence: "This file is empty." },
    { looked: { sha256: "three" } },
  ];
  vi.stubGlobal(
    "Worker",
    workerThat(() => answers[number++]),
  );
  const { lookAt } = await import("./looking");
  const { NotAPhoto: Refusal } = await import("./picture");
  const [one, two, three] = await Promise.allSettled([lookAt(file()), lookAt(file()), lookAt(file())]);
  expect(one).toMatchObject({ status: "fulfilled", value: { sha256: "one" } });
  expect(two).toMatchObject({ status: "rejected", reason: { sentence: "This file is empty." } });
  expect((two as PromiseRejectedResult).reason).toBeInstanceOf(Refusal);
  expect(three).toMatchObject({ value: { sha256: "three" } });
  expect(asked).toEqual([]);
});

test("a browser without workers, without their canvas, or whose worker does not start looks on the page", async () => {
  for (const [worker, canvas] of [
    [undefined, Canvas],
    [workerThat(() => ({ looked: {} })), undefined],
    [workerThat(() => undefined), Canvas],
  ]) {
    vi.resetModules();
    vi.stubGlobal("Worker", worker);
    vi.stubGlobal("OffscreenCanvas", canvas);
    if (!canvas)
      vi.stubGlobal("document", {
        createElement: () => ({
          getContext: new Canvas(0, 0).getContext,
          toBlob: (done: (blob: Blob) => void) => done(new Blob(["thumb"])),
        }),
      });
    const { lookAt } = await import("./looking");
    expect((await lookAt(file())).gate.verdict).toBe("empty");
  }
});
