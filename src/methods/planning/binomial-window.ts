import { binomialMass } from "../../numeric/binomial.ts";

/** The counts that can happen at all, with their probabilities. */
export interface BinomialWindow {
  /** The smallest of the counts. */
  readonly from: number;
  /** Probabilities of `from`, `from + 1`, ... */
  readonly masses: readonly number[];
}

/** Counts less probable than this are left out: all of them together change no answer. */
const NEVER = 1e-19;

/**
 * The binomial probabilities of all counts that are not negligible, from a most probable count outwards:
 * time grows with the standard deviation and not with the total.
 *
 * @param total whole, 0 or more
 * @param share 0..1
 */
export function binomialWindow(total: number, share: number): BinomialWindow {
  const mode = Math.min(total, Math.floor((total + 1) * share));
  const peak = binomialMass(mode, total, share);
  const odds = share / (1 - share);
  const below: number[] = [];
  let mass = peak;
  for (let at = mode; at > 0; at -= 1) {
    mass *= at / (total - at + 1) / odds;
    if (mass < NEVER) break;
    below.push(mass);
  }
  const from = mode - below.length;
  const masses = below.reverse();
  masses.push(peak);
  mass = peak;
  for (let at = mode; at < total; at += 1) {
    mass *= ((total - at) / (at + 1)) * odds;
    if (mass < NEVER) break;
    masses.push(mass);
  }
  return { from, masses };
}
