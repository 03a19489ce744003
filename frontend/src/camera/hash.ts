/** SHA-256 of a photo, also where the browser withholds its own (plain HTTP on a local network). */
export async function sha256Hex(bytes: ArrayBuffer, subtle: SubtleCrypto | undefined = globalThis.crypto?.subtle): Promise<string> {
  const digest = subtle ? new Uint8Array(await subtle.digest("SHA-256", bytes)) : await inScript(bytes);
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function inScript(bytes: ArrayBuffer): Promise<Uint8Array> {
  const { sha256 } = await import("@noble/hashes/sha2.js");
  return sha256(new Uint8Array(bytes));
}
