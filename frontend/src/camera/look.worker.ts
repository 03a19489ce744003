import { look } from "./look";
import { NotAPhoto } from "./picture";

addEventListener("message", async ({ data }: MessageEvent<Blob>) => {
  try {
    const looked = await look(data);
    postMessage({ looked }, { transfer: [looked.bytes, ...(looked.thumb ? [looked.thumb] : [])] });
  } catch (error) {
    postMessage(error instanceof NotAPhoto ? { code: error.code, sentence: error.sentence } : { failed: String(error) });
  }
});
