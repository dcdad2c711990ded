import { chiSquareQuantile } from "../../numeric/chi-square.ts";
import { fQuantile } from "../../numeric/f-distribution.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import type { BivariateOptions, BivariateValues } from "./bivariate-fields.ts";
import { hierarchicalParameters } from "./hierarchical.ts";
import type { Spread } from "./loadings.ts";
import { expit } from "./logit.ts";
import type { Study } from "./study-fields.ts";

export interface LogitPoint {
  readonly first: number;
  readonly second: number;
}
type Points = BivariateValues["regions"]["curve"];

/** Variances and covariance of two logits. */
export interface Scatter {
  readonly first: number;
  readonly second: number;
  readonly both: number;
}

/** How many standard deviations intervals and ellipses reach; `null` where too few studies are left. */
export function reachOf({ reach, level }: BivariateOptions, studies: number) {
  const freedom = studies - 2;
  if (reach === "normal") {
    return {
      interval: normalQuantile((1 + level) / 2),
      ellipse: Math.sqrt(chiSquareQuantile(level, 2)),
    };
  }
  if (freedom < 1) return { interval: null, ellipse: null };
  return {
    interval: tQuantile((1 + level) / 2, freedom),
    ellipse: Math.sqrt(2 * fQuantile(level, 2, freedom)),
  };
}

const AROUND = 72;

/** A closed line around a point, so many standard deviations away. */
export function ellipse(middle: LogitPoint, scatter: Scatter, reach: number): Points {
  const wide = Math.sqrt(scatter.first);
  const lean = wide === 0 ? 0 : scatter.both / wide;
  const high = Math.sqrt(Math.max(0, scatter.second - lean * lean));
  return Array.from({ length: AROUND + 1 }, (_, place) => {
    const angle = (2 * Math.PI * (place % AROUND)) / AROUND;
    const [x, y] = [reach * Math.cos(angle), reach * Math.sin(angle)];
    return pointOf({ first: middle.first + wide * x, second: middle.second + lean * x + high * y });
  });
}

const ALONG = 41;

/** The summary curve over the specificities seen, highest first; nothing where there is no curve. */
export function summaryCurve(studies: readonly Study[], middle: LogitPoint, spread: Spread): Points {
  const parameters = hierarchicalParameters(middle.first, middle.second, spread);
  if (parameters === null) return [];
  const { shape, accuracy } = parameters;
  const seen = studies
    .filter(({ falsePositives, trueNegatives }) => falsePositives + trueNegatives > 0)
    .map(({ falsePositives, trueNegatives }) =>
      falsePositives === 0 || trueNegatives === 0
        ? Math.log((trueNegatives + 0.5) / (falsePositives + 0.5))
        : Math.log(trueNegatives / falsePositives),
    );
  const [lowest, highest] = [Math.min(...seen), Math.max(...seen)];
  return Array.from({ length: ALONG }, (_, place) => {
    const second = highest - ((highest - lowest) * place) / (ALONG - 1);
    return pointOf({ first: accuracy * Math.exp(-shape / 2) - Math.exp(-shape) * second, second });
  });
}

function pointOf({ first, second }: LogitPoint): Points[number] {
  return {
    sensitivity: expit(first),
    specificity: expit(second),
    logitSensitivity: first,
    logitSpecificity: second,
  };
}
