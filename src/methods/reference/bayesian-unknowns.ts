import type { BayesianModel } from "./bayesian-model.ts";
import { bothLimits } from "./bayesian-tables.ts";
import { fromLogit } from "./latent-layout.ts";
import { MOST_SHARED } from "./latent-tables.ts";

/** An unknown as it is reported. */
export interface Unknown {
  /** Dotted path into the values, e.g. `tests.0.sensitivity`. */
  readonly path: string;
  readonly kind: "share" | "covariance" | "correlation";
  /** Its place in the layout. */
  readonly place: number;
  /** Whether the share reported is one less that of the layout (a specificity). */
  readonly mirrored: boolean;
  /** Its value at a draw. */
  readonly valueAt: (logits: readonly Float64Array[], draw: number) => number;
}

/** Everything that is reported, prevalences first, in the order of the layout. */
export function unknownsOf(model: BayesianModel): Unknown[] {
  const { data, layout } = model;
  const share = (path: string, place: number, mirrored: boolean): Unknown => ({
    path,
    kind: "share",
    place,
    mirrored,
    valueAt: (logits, draw) => {
      const logit = logits[place]?.[draw] as number;
      return fromLogit(mirrored ? -logit : logit);
    },
  });
  const places = (length: number) => Array.from({ length }, (_, place) => place);
  return [
    ...places(data.populations).map((place) =>
      share(`populations.${place}.prevalence`, layout.prevalence(place), false),
    ),
    ...places(data.tests).map((test) => share(`tests.${test}.sensitivity`, layout.reactive(0, test), false)),
    ...places(data.tests).map((test) => share(`tests.${test}.specificity`, layout.reactive(1, test), true)),
    ...(["diseased", "nondiseased"] as const).flatMap((word, condition) =>
      places(layout.dependences).map((place) => couplingOf(model, word, condition, place)),
    ),
  ];
}

function couplingOf(
  { data, layout }: BayesianModel,
  word: "diseased" | "nondiseased",
  condition: number,
  place: number,
): Unknown {
  const own = layout.dependence(condition, place);
  const named = { path: `couplings.${place}.${word}`, place: own, mirrored: false };
  const at = (logits: readonly Float64Array[], from: number, draw: number) =>
    fromLogit(logits[from]?.[draw] as number);
  if (data.randomEffect) {
    return { ...named, kind: "correlation", valueAt: (logits, draw) => MOST_SHARED * at(logits, own, draw) };
  }
  const [first, second] = data.pairs[place] as readonly [number, number];
  const valueAt = (logits: readonly Float64Array[], draw: number) =>
    covarianceAt(
      at(logits, layout.reactive(condition, first), draw),
      at(logits, layout.reactive(condition, second), draw),
      at(logits, own, draw),
    );
  return { ...named, kind: "covariance", valueAt };
}

/** The covariance of two results that are reactive with these probabilities, so far up between its limits. */
export function covarianceAt(first: number, second: number, height: number): number {
  const { least, most } = bothLimits(first, second);
  return least + (most - least) * height - first * second;
}

/** An unknown's values in every chain. */
export function columnOf(
  { valueAt }: Unknown,
  chains: readonly { logits: readonly Float64Array[] }[],
): Float64Array[] {
  return chains.map(({ logits }) => {
    const column = new Float64Array(logits[0]?.length ?? 0);
    for (let draw = 0; draw < column.length; draw += 1) column[draw] = valueAt(logits, draw);
    return column;
  });
}
