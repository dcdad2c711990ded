import { deflateSync, inflateSync } from "fflate";
import { fromBase64, toBase64 } from "../base64.ts";
import { type Tell, whole } from "../step.ts";

/** Fast rather than small: it is done at every change of a file. */
const LEVEL = 3;

/** Bytes made small and writable as text, each by itself, for the browser's storage. */
export async function squeeze(pieces: readonly Uint8Array[], tell: Tell): Promise<readonly string[]> {
  await tell(whole("packing"));
  return pieces.map((bytes) => toBase64(deflateSync(bytes, { level: LEVEL })));
}

/**
 * The bytes again.
 * @throws where a text is no such thing
 */
export async function unsqueeze(texts: readonly string[], tell: Tell): Promise<readonly Uint8Array[]> {
  await tell(whole("packing"));
  return texts.map((text) => inflateSync(fromBase64(text)));
}
