import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "yaml";
import type { Pooling } from "../../src/evaluation/pool/document.ts";
import { renderPool } from "../../src/report/pool/render-pool.tsx";
import { type PoolText, pooled, type StudyRow, withKinds, workedCase } from "../evaluation/pool/any-pool.ts";
import { HOSTILE } from "./sample-evaluation.ts";

/** Poolings to look at: the example, the template, and what is smaller, on a border, or hostile. */
const read = (name: string) => readFileSync(join(import.meta.dirname, "../../data", name), "utf8");
const folder = (name: string) => () =>
  pooled(read(`${name}/studies.csv`), parse(read(`${name}/pool.yaml`)) as PoolText);

const FEW: readonly StudyRow[] = [
  [45, 0, 5, 94],
  [62, 0, 14, 137],
  [28, 0, 9, 88],
];
const CRITERIA = [{ measure: "sensitivity", at_least: 0.8, source: "made up" }];

const hostileKinds = workedCase("G-04").rows.map(
  ([tp, fp, fn, tn], at): StudyRow => [tp, fp, fn, tn, at % 2 === 0 ? '"=1+1 </script><b>"' : "plain"],
);

/** How each pooling is made. `example` has two kinds that differ, `template` a criterion and a border. */
const MADE: Readonly<Record<string, () => Pooling>> = {
  example: folder("pool"),
  template: folder("template-pool"),
  border: () => pooled(workedCase("G-03").rows),
  apart: () => pooled(FEW),
  single: () => pooled(FEW.slice(0, 1)),
  hostile: () =>
    pooled(
      hostileKinds,
      withKinds({ title: HOSTILE, question: HOSTILE, covariate: HOSTILE, criteria: CRITERIA }),
    ),
};
export const NAMES = Object.keys(MADE);

const known = new Map<string, Pooling>();
export function poolingOf(name: string): Pooling {
  const found = known.get(name) ?? (MADE[name] as () => Pooling)();
  known.set(name, found);
  return found;
}

const pages = new Map<string, Promise<string>>();
/** The page of a pooling, drawn once. */
export function poolPageOf(name: string): Promise<string> {
  const page = pages.get(name) ?? renderPool(poolingOf(name));
  pages.set(name, page);
  return page;
}
