/** Bytes as text, or why they are none. */
export type Decoded =
  | { readonly ok: true; readonly text: string; readonly byteOrderMark: boolean }
  | { readonly ok: false; readonly line: number | null; readonly received: string };

const NEWLINE = 10;

/**
 * Decodes UTF-8, with or without a byte order mark. Nothing is guessed: other encodings are refused,
 * with the line of the first byte that cannot be UTF-8. Line ends are left as they are.
 */
export function decode(bytes: Uint8Array): Decoded {
  if (startsWith(bytes, [0xff, 0xfe]) || startsWith(bytes, [0xfe, 0xff]))
    return refused(null, "text in UTF-16");
  if (looksLikeUtf16(bytes)) return refused(null, "text in UTF-16");
  if (startsWith(bytes, [0x50, 0x4b, 0x03, 0x04])) return refused(null, "a ZIP archive or spreadsheet");
  const byteOrderMark = startsWith(bytes, [0xef, 0xbb, 0xbf]);
  const body = byteOrderMark ? bytes.subarray(3) : bytes;
  try {
    return { ok: true, text: strictDecoder().decode(body), byteOrderMark };
  } catch {
    return refused(firstBadLine(body), "bytes that are not UTF-8 (perhaps Latin-1)");
  }
}

function strictDecoder() {
  return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
}

function refused(line: number | null, received: string): Decoded {
  return { ok: false, line, received };
}

function startsWith(bytes: Uint8Array, head: readonly number[]): boolean {
  return head.every((byte, index) => bytes[index] === byte);
}

/** Every second byte of the beginning is zero: Latin letters in UTF-16 without a mark. */
function looksLikeUtf16(bytes: Uint8Array): boolean {
  const seen = Math.min(bytes.length - (bytes.length % 2), 64);
  if (seen < 4) return false;
  let even = 0;
  let odd = 0;
  for (let index = 0; index < seen; index += 2) {
    if (bytes[index] === 0) even += 1;
    if (bytes[index + 1] === 0) odd += 1;
  }
  const half = seen / 2;
  return (odd > half * 0.9 && even === 0) || (even > half * 0.9 && odd === 0);
}

/** A line end is never part of a longer UTF-8 character, so lines can be decoded one by one. */
function firstBadLine(bytes: Uint8Array): number {
  let line = 1;
  let start = 0;
  while (start < bytes.length) {
    const found = bytes.indexOf(NEWLINE, start);
    const end = found < 0 ? bytes.length : found;
    try {
      strictDecoder().decode(bytes.subarray(start, end));
    } catch {
      return line;
    }
    line += 1;
    start = end + 1;
  }
  return line;
}
