import { randomStream } from "../../../src/core/random.ts";

/** A rule as the methods give or take it. */
export interface Rule {
  readonly total: number;
  readonly passFrom?: number | null | undefined;
  readonly failAt?: number | null | undefined;
}

export interface Ended {
  readonly total: number;
  readonly passed: boolean;
}

/** Applies a rule to results in the order of enrolment. Owes nothing to the project. */
export function applyRule(looks: readonly Rule[], isRight: (person: number) => boolean): Ended {
  let [right, seen] = [0, 0];
  for (const { total, passFrom, failAt } of looks) {
    for (; seen < total; seen += 1) if (isRight(seen)) right += 1;
    if (typeof passFrom === "number" && right >= passFrom) return { total, passed: true };
    if (typeof failAt === "number" && right <= failAt) return { total, passed: false };
  }
  throw new Error("the last look did not decide");
}

/** Every sequence of right and wrong results, followed one by one: for a dozen people or so. */
export function byEveryPath(looks: readonly Rule[], truth: number) {
  const most = looks[looks.length - 1]?.total ?? 0;
  const ended = new Map<number, number>();
  let [pass, mean] = [0, 0];
  for (let path = 0; path < 2 ** most; path += 1) {
    let weight = 1;
    for (let person = 0; person < most; person += 1) weight *= (path >> person) & 1 ? truth : 1 - truth;
    const end = applyRule(looks, (person) => ((path >> person) & 1) === 1);
    if (end.passed) pass += weight;
    mean += end.total * weight;
    ended.set(end.total, (ended.get(end.total) ?? 0) + weight);
  }
  return { pass, mean, ended };
}

/** Simulated studies, person by person. */
export function byDrawing(looks: readonly Rule[], truth: number, studies: number, seed: number) {
  const random = randomStream(seed);
  let [passed, people, squares] = [0, 0, 0];
  for (let study = 0; study < studies; study += 1) {
    const end = applyRule(looks, () => random() < truth);
    if (end.passed) passed += 1;
    people += end.total;
    squares += end.total ** 2;
  }
  const pass = passed / studies;
  const mean = people / studies;
  return {
    pass,
    mean,
    meanError: Math.sqrt(Math.max(squares / studies - mean ** 2, 0) / studies),
  };
}
