/**
 * SHA-256 (FIPS 180-4) in plain arithmetic, so that the same digest can be had where no crypto
 * library is at hand and without waiting. Some 60 MB a second; the command line hashes its big
 * files with the platform's own routine.
 */
const BLOCK = 64;

/** First 32 bits of the fractional parts of the n-th roots of the first primes. */
function rootFractions(howMany: number, power: number): Uint32Array {
  const words = new Uint32Array(howMany);
  let candidate = 2;
  for (let found = 0; found < howMany; candidate++) {
    if (!isPrime(candidate)) continue;
    const root = Math.pow(candidate, power);
    words[found++] = (root - Math.floor(root)) * 2 ** 32;
  }
  return words;
}

function isPrime(number: number): boolean {
  for (let divisor = 2; divisor * divisor <= number; divisor++) if (number % divisor === 0) return false;
  return true;
}

const ROUND = rootFractions(64, 1 / 3);
const START = rootFractions(8, 1 / 2);

/** SHA-256 of bytes, as 64 hexadecimal digits. */
export function sha256(bytes: Uint8Array): string {
  const state = START.slice();
  const schedule = new Uint32Array(64);
  const whole = bytes.length - (bytes.length % BLOCK);
  const head = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  for (let at = 0; at < whole; at += BLOCK) absorb(state, schedule, head, at);
  const tail = new DataView(padded(bytes, whole).buffer);
  for (let at = 0; at < tail.byteLength; at += BLOCK) absorb(state, schedule, tail, at);
  return Array.from(state, (word) => word.toString(16).padStart(8, "0")).join("");
}

/** The last, incomplete block with the padding that the standard asks for. */
function padded(bytes: Uint8Array, from: number): Uint8Array {
  const left = bytes.length - from;
  const tail = new Uint8Array(left + 9 <= BLOCK ? BLOCK : 2 * BLOCK);
  tail.set(bytes.subarray(from));
  tail[left] = 0x80;
  const view = new DataView(tail.buffer);
  view.setUint32(tail.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(tail.length - 4, (bytes.length * 8) >>> 0);
  return tail;
}

const turned = (word: number, by: number) => (word >>> by) | (word << (32 - by));

function absorb(state: Uint32Array, schedule: Uint32Array, block: DataView, at: number): void {
  for (let t = 0; t < 16; t++) schedule[t] = block.getUint32(at + 4 * t);
  for (let t = 16; t < 64; t++) {
    const early = schedule[t - 15] as number;
    const late = schedule[t - 2] as number;
    const small = turned(early, 7) ^ turned(early, 18) ^ (early >>> 3);
    const large = turned(late, 17) ^ turned(late, 19) ^ (late >>> 10);
    schedule[t] = ((schedule[t - 16] as number) + small + (schedule[t - 7] as number) + large) | 0;
  }
  let [a, b, c, d, e, f, g, h] = state as unknown as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  for (let t = 0; t < 64; t++) {
    const sumE = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
    const chosen = (e & f) ^ (~e & g);
    const first = (h + sumE + chosen + (ROUND[t] as number) + (schedule[t] as number)) | 0;
    const sumA = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + sumA + majority) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, index) => {
    state[index] = (state[index] as number) + word;
  });
}

/** A file as it stands in the provenance. */
export interface HashedFile {
  readonly name: string;
  readonly sha256: string;
}

/**
 * One digest for several files: the SHA-256 of the lines "digest, two spaces, name", sorted by name.
 * `sha256sum study.yaml kit.yaml | sort -k2 | sha256sum` gives the same, so anyone can check it.
 */
export function digestOfFiles(files: readonly HashedFile[]): string {
  const lines = [...files]
    .sort((one, other) => (one.name < other.name ? -1 : one.name > other.name ? 1 : 0))
    .map((file) => `${file.sha256}  ${file.name}\n`);
  return sha256(new TextEncoder().encode(lines.join("")));
}
