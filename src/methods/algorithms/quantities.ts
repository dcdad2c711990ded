import { randomBeta } from "d3-random";
import { InputError } from "../../core/input-error.ts";
import { randomStream } from "../../core/random.ts";
import { betaQuantile } from "../../numeric/beta-quantile.ts";
import type {
  Costs,
  UncertainKit,
  UncertainMoney,
  UncertainPrevalence,
  UncertainShare,
} from "./uncertain-fields.ts";

/** What a kit is known by, in the order in which it is drawn. */
export const KIT_QUANTITIES = ["sensitivity", "specificity", "invalid", "price"] as const;
const COST_QUANTITIES = ["perPerson", "perInconclusive"] as const;

/** Something uncertain of an input: a share or a price, and where it stands. */
export interface Quantity {
  readonly path: readonly (string | number)[];
  /** As people say it, such as `R specificity`. */
  readonly name: string;
  readonly spread: UncertainShare | UncertainMoney;
}

/** The places of costs and prevalences in a list of quantities; kit k has places 4 k to 4 k + 3. */
export function placesOf(kits: number) {
  const start = kits * KIT_QUANTITIES.length;
  return { perPerson: start, perInconclusive: start + 1, prevalences: start + COST_QUANTITIES.length };
}

/**
 * Everything of an input that may be uncertain: four of each kit, two costs, the prevalences.
 * @throws InputError where a part is larger than its whole, a range runs backwards, or an id comes twice
 */
export function quantitiesOf(input: {
  readonly kits: readonly UncertainKit[];
  readonly costs: Costs;
  readonly prevalences: readonly UncertainPrevalence[];
}): Quantity[] {
  const kits = input.kits.flatMap((kit, at) =>
    KIT_QUANTITIES.map((name) => ({
      path: ["input", "kits", at, name],
      name: `${kit.id} ${name}`,
      spread: kit[name],
    })),
  );
  const costs = COST_QUANTITIES.map((name) => ({
    path: ["input", "costs", name],
    name: name === "perPerson" ? "cost per person" : "cost per inconclusive",
    spread: input.costs[name],
  }));
  const prevalences = input.prevalences.map(({ label, share }, at) => ({
    path: ["input", "prevalences", at, "share"],
    name: label,
    spread: share,
  }));
  requireDifferent(
    input.kits.map(({ id }) => id),
    ["input", "kits"],
    "id",
  );
  requireDifferent(
    input.prevalences.map(({ label }) => label),
    ["input", "prevalences"],
    "label",
  );
  const all = [...kits, ...costs, ...prevalences];
  for (const quantity of all) requireSpread(quantity);
  return all;
}

/** @throws InputError naming the first of several entries with one name */
export function requireDifferent(names: readonly string[], path: readonly string[], field: string): void {
  for (const [at, name] of names.entries()) {
    if (names.indexOf(name) === at) continue;
    throw new InputError([...path, at, field], "a name that no other entry has", name);
  }
}

function requireSpread({ path, spread }: Quantity): void {
  if (spread.kind === "counts" && spread.right > spread.total) {
    throw new InputError([...path, "right"], `at most the total, ${spread.total}`, spread.right);
  }
  if (spread.kind === "range" && spread.low > spread.high) {
    throw new InputError([...path, "low"], `at most the highest, ${spread.high}`, spread.low);
  }
}

/** Whether a quantity can be anything but one value. */
export function isUncertain({ spread }: Quantity): boolean {
  return spread.kind === "range" ? spread.low < spread.high : spread.kind !== "value";
}

/** The value below which a quantity lies with the probability given; its centre is at one half. */
export function quantileOf({ spread }: Quantity, probability: number): number {
  if (spread.kind === "value") return spread.value;
  if (spread.kind === "range") return spread.low + probability * (spread.high - spread.low);
  const { a, b } = shapeOf(spread);
  return betaQuantile(probability, a, b);
}

function shapeOf(spread: Extract<UncertainShare, { kind: "counts" | "beta" }>): { a: number; b: number } {
  if (spread.kind === "beta") return spread;
  return { a: spread.right + 0.5, b: spread.total - spread.right + 0.5 };
}

/** Streams of one draw: far more than quantities there can be, and 100,000 draws stay below 2^32. */
const STREAMS = 1024;

/**
 * One draw of every quantity, into a vector. Each quantity of each draw has a stream of its own, so that a
 * draw is the same whichever draws are made before it, and whatever is known of the other quantities.
 *
 * @param draw its number, from 0
 */
export function drawInto(
  into: Float64Array,
  quantities: readonly Quantity[],
  seed: number,
  draw: number,
): void {
  for (let at = 0; at < quantities.length; at += 1) {
    const { spread } = quantities[at] as Quantity;
    if (spread.kind === "value") {
      into[at] = spread.value;
      continue;
    }
    const stream = randomStream(seed, draw * STREAMS + at);
    if (spread.kind === "range") into[at] = spread.low + stream() * (spread.high - spread.low);
    else {
      const { a, b } = shapeOf(spread);
      into[at] = randomBeta.source(stream)(a, b)();
    }
  }
}

/** Every quantity at its centre, the median. */
export function centres(quantities: readonly Quantity[]): Float64Array {
  return Float64Array.from(quantities, (quantity) => quantileOf(quantity, 0.5));
}
