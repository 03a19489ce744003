/** Photos go in resumable chunks (tus 1.0) under their SHA-256, and are asked after when done. */
import { t } from "../messages";
import { deviceId } from "../store/key_value";
import { NoAnswer, PROTOCOL, Refused, csrfToken, type Request } from "./wire";

/** Does the server hold this hash for good? The only receipt for a photo that counts. */
export async function isHeldByServer(sha256: string, request: Request): Promise<boolean> {
  try {
    return (await request(`/sync/photos/${sha256}`, { method: "HEAD" })).status === 200;
  } catch (error) {
    if (error instanceof Refused && error.status === 404) return false;
    throw error;
  }
}

/** A photo's bytes, where they lie: in the page, or in a file of the browser's. */
export interface Sendable {
  sha256: string;
  type: string;
  bytes: ArrayBuffer | Blob;
}
export type Upload = (photo: Sendable) => Promise<void>;

/** Send the bytes, going on where an earlier try stopped. Throws NoAnswer or Refused. */
export const uploadByTus: Upload = async (photo) => {
  const [tus, device] = await Promise.all([import("tus-js-client"), deviceId()]);
  const file = new Blob([photo.bytes], { type: photo.type });
  // the browser holds the file now; the page's own copy is given back at once
  if (photo.bytes instanceof ArrayBuffer) photo.bytes.transfer?.(0);
  await new Promise<void>((resolve, reject) => {
    const upload = new tus.Upload(file, {
      endpoint: "/sync/uploads/",
      metadata: { sha256: photo.sha256, type: photo.type, device },
      chunkSize: 512 * 1024,
      // Of a part that the server has, a killed browser may have lost the address: it answers 409, and the rest goes from there.
      retryDelays: [0],
      onShouldRetry: (error) => "originalResponse" in error && error.originalResponse?.getStatus() === 409,
      addRequestId: true,
      removeFingerprintOnSuccess: true,
      fingerprint: async () => `underlid-${photo.sha256}`,
      headers: PROTOCOL,
      onBeforeRequest: (asked) => asked.setHeader("X-CSRFToken", csrfToken()),
      onError: (error) => reject(asOurs(error)),
      onSuccess: () => resolve(),
    });
    void upload.findPreviousUploads().then((earlier) => {
      if (earlier[0]) upload.resumeFromPreviousUpload(earlier[0]);
      upload.start();
    }, reject);
  });
};

function asOurs(
  error: Error & { originalResponse?: { getStatus(): number; getBody(): string; getHeader(name: string): string | undefined } | null },
): Error {
  const response = error.originalResponse;
  const status = response?.getStatus() ?? 0;
  if (!response || status === 0) return new NoAnswer("upload", { cause: error });
  const said = parsed(response.getBody());
  const sentence = said.sentence ?? t("dock-uploads-server-did-not");
  return new Refused(
    status,
    said.code ?? response.getHeader("X-Underlid-Problem") ?? `HTTP-${status}`,
    sentence,
    said.facts ?? {},
    said,
    null,
  );
}

function parsed(text: string): { code?: string; sentence?: string; facts?: Record<string, unknown> } {
  try {
    return JSON.parse(text) as { code?: string; sentence?: string };
  } catch {
    return {};
  }
}
