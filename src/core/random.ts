import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** Uniform numbers in [0, 1) with 53 random bits; the shape that d3-random's `.source` takes. */
export type RandomSource = () => number;

const TWO_TO_26 = 2 ** 26;
const TWO_TO_27 = 2 ** 27;
const TWO_TO_53 = 2 ** 53;
const GOLDEN = 0x9e3779b9;

/**
 * The random stream number `task` of a seed. Streams of one seed are independent for practical
 * purposes and depend on nothing but (seed, task): neither on the order in which tasks run nor on
 * the number of threads. Seed and task are mixed by two rounds of an integer hash before they
 * seed the generator, so that neighbouring numbers give unrelated streams.
 *
 * @param seed whole number, 0 to 2^32 - 1
 * @param task whole number, 0 to 2^32 - 1
 */
export function randomStream(seed: number, task = 0): RandomSource {
  const generator = xoroshiro128plus(mix(mix(seed >>> 0) ^ mix((task >>> 0) + GOLDEN)));
  return () => {
    const high = (generator.next() >>> 5) * TWO_TO_26;
    const low = generator.next() >>> 6;
    return (high + low) / TWO_TO_53;
  };
}

/** Finaliser of a 32-bit hash: every input bit reaches every output bit. */
function mix(value: number): number {
  let state = value | 0;
  state = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
  state = Math.imul(state ^ (state >>> 13), 0xc2b2ae35);
  return (state ^ (state >>> 16)) >>> 0;
}

/** A name turned into a task number, so that streams can be told apart by word. */
export function taskNumber(name: string): number {
  let state = 0x811c9dc5;
  for (const letter of name) state = Math.imul(state ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  return mix(state % TWO_TO_27);
}
