/** Photos are looked at beside the page, so that it answers while a large one is read; on it where there is no other way. */
import { look, type Looked } from "./look";
import { NotAPhoto } from "./picture";

type Answer = { looked: Looked } | { code: NotAPhoto["code"]; sentence: string } | { failed: string };

class NoWorker extends Error {}

let worker: Worker | null = null;
let isWithoutWorker = false;
let last: Promise<unknown> = Promise.resolve();

/** Look at a file; one after another, for each takes four bytes a pixel. Throws NotAPhoto with its sentence. */
export function lookAt(file: Blob): Promise<Looked> {
  const own = last.then(() => lookedAt(file));
  last = own.catch(() => undefined);
  return own;
}

async function lookedAt(file: Blob): Promise<Looked> {
  // OffscreenCanvas came to some phones long after workers did
  if (!isWithoutWorker && globalThis.Worker && globalThis.OffscreenCanvas) {
    try {
      return await inWorker(file);
    } catch (error) {
      if (!(error instanceof NoWorker)) throw error;
      isWithoutWorker = true;
    }
  }
  return look(file);
}

function inWorker(file: Blob): Promise<Looked> {
  const used = (worker ??= new Worker(new URL("./look.worker.ts", import.meta.url), { type: "module" }));
  return new Promise((resolve, reject) => {
    used.onmessage = ({ data }: MessageEvent<Answer>) => {
      if ("looked" in data) resolve(data.looked);
      else reject("code" in data ? new NotAPhoto(data.code, data.sentence) : new Error(data.failed));
    };
    used.onerror = () => reject(new NoWorker());
    used.postMessage(file);
  });
}
