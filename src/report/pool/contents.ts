import type { Pooling } from "../../evaluation/pool/document.ts";
import type { Placed } from "../contents.ts";
import type { Words } from "../words/en.ts";

export type PoolSectionId =
  | "studies"
  | "plot"
  | "without"
  | "levels"
  | "small"
  | "models"
  | "left"
  | "methods"
  | "cautions"
  | "provenance";

/** The sections that this pooling fills, in the order of the page. */
export function poolContentsOf(pooling: Pooling, words: Words): Placed<PoolSectionId>[] {
  const { answer, studies, leftOut, covariate } = pooling;
  const oneKind = studies.some(({ sensitivity, specificity }) => sensitivity.total * specificity.total === 0);
  const filled: readonly (readonly [PoolSectionId, boolean])[] = [
    ["studies", true],
    ["plot", answer.basis === "bivariate"],
    ["without", answer.basis === "bivariate"],
    ["levels", covariate !== null],
    ["small", studies.length > 1],
    ["models", studies.length > 1],
    ["left", leftOut.length > 0 || oneKind],
    ["methods", true],
    ["cautions", true],
    ["provenance", true],
  ];
  return filled
    .filter(([, present]) => present)
    .map(([id], place) => ({ id, number: place + 1, title: words.pool.sections[id] }));
}
