import type { Verdict } from "../proportion/criterion.ts";
import type { KnownErrors } from "./known-errors.ts";
import type { TippingInput, TippingOptions, TippingValues } from "./tipping.ts";
import { judgedAt } from "./tipping-verdict.ts";

/** Steps from what is believed to the end of an axis: a change and its undoing within one step stay unseen. */
const STEPS = 400;
/** How near to the border the halving goes. */
const NEAR = 1e-13;
const LARGEST_COVARIANCE = 0.25;

interface Border {
  readonly at: number | null;
  readonly verdict: Verdict | null;
}

/** On each axis, alone, the first change of the verdict going down and up from what is believed. */
export function tippingBorders(input: TippingInput, options: TippingOptions): TippingValues["borders"] {
  const { reference, covariance } = input;
  const along = (
    from: number,
    [least, most]: readonly [number, number],
    moved: (to: number) => KnownErrors,
  ) => {
    const verdictAt = (to: number) => judgedAt(input, moved(to), options).verdict;
    return { below: firstChange(verdictAt, from, least), above: firstChange(verdictAt, from, most) };
  };
  const spread = [-LARGEST_COVARIANCE, LARGEST_COVARIANCE] as const;
  return {
    referenceSensitivity: along(reference.sensitivity, [0, 1], (sensitivity) => ({
      reference: { ...reference, sensitivity },
      covariance,
    })),
    referenceSpecificity: along(reference.specificity, [0, 1], (specificity) => ({
      reference: { ...reference, specificity },
      covariance,
    })),
    covarianceDiseased: along(covariance.diseased, spread, (diseased) => ({
      reference,
      covariance: { ...covariance, diseased },
    })),
    covarianceNondiseased: along(covariance.nondiseased, spread, (nondiseased) => ({
      reference,
      covariance: { ...covariance, nondiseased },
    })),
  };
}

/** Walks from a place to the end of the axis; where the verdict has changed, halves the last step. */
function firstChange(verdictAt: (place: number) => Verdict, from: number, end: number): Border {
  const start = verdictAt(from);
  let before = from;
  for (let step = 1; step <= STEPS && from !== end; step += 1) {
    const place = step === STEPS ? end : from + ((end - from) * step) / STEPS;
    const verdict = verdictAt(place);
    if (verdict !== start) return borderBetween(verdictAt, start, before, place);
    before = place;
  }
  return { at: null, verdict: null };
}

function borderBetween(
  verdictAt: (place: number) => Verdict,
  start: Verdict,
  same: number,
  changed: number,
): Border {
  let [near, far] = [same, changed];
  while (Math.abs(far - near) > NEAR) {
    const middle = (near + far) / 2;
    if (middle === near || middle === far) break;
    if (verdictAt(middle) === start) near = middle;
    else far = middle;
  }
  return { at: (near + far) / 2, verdict: verdictAt(far) };
}
