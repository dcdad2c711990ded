import { sha256 } from "../../evaluation/digest.ts";

/** SHA-256 in hexadecimal digits: by the browser's own routine where the page may use it, else by ours. */
export async function hashOf(bytes: Uint8Array): Promise<string> {
  const subtle = globalThis.crypto?.subtle;
  if (subtle === undefined) return sha256(bytes);
  const digest = await subtle.digest("SHA-256", bytes as Uint8Array<ArrayBuffer>);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
