import { suggestion } from "./nearest.ts";
import type { ReferenceAlgorithm } from "./reference-algorithm.ts";
import { FINAL_STATUSES } from "./reference-algorithm.ts";

import type { Fault } from "./yaml-file.ts";

type Path = readonly (string | number)[];

/** Faults of one reference algorithm: unknown or repeated assays, loops, steps never reached. */
export function checkAlgorithm(
  algorithm: ReferenceAlgorithm,
  path: Path,
  unknownName: Fault,
  loop: Fault,
): void {
  const assays = algorithm.map((step) => step.assay);
  const known = [...FINAL_STATUSES, ...assays];
  algorithm.forEach((step, index) => {
    if (assays.indexOf(step.assay) < index)
      unknownName([...path, index, "assay"], "each assay once", step.assay);
    if ((FINAL_STATUSES as readonly string[]).includes(step.assay)) {
      unknownName([...path, index, "assay"], "a name that is no final status", step.assay);
    }
    for (const [result, next] of Object.entries(step.leads_to)) {
      if (known.includes(next)) continue;
      const expected = `a final status or an assay of this algorithm${suggestion(next, known)}`;
      unknownName([...path, index, "leads_to", result], expected, next);
    }
  });
  const looped = firstLoop(algorithm);
  if (looped !== null) loop([...path, looped], "assays that lead onward", algorithm[looped]?.assay);
  const reached = reachable(algorithm);
  algorithm.forEach((step, index) => {
    if (!reached.has(step.assay)) {
      unknownName([...path, index, "assay"], "an assay that another step leads to", step.assay);
    }
  });
}

function nextAssays(algorithm: ReferenceAlgorithm, assay: string): string[] {
  return Object.values(algorithm.find((step) => step.assay === assay)?.leads_to ?? {});
}

function reachable(algorithm: ReferenceAlgorithm): Set<string> {
  const reached = new Set<string>();
  const waiting = [algorithm[0]?.assay ?? ""];
  for (let assay = waiting.pop(); assay !== undefined; assay = waiting.pop()) {
    if (reached.has(assay)) continue;
    reached.add(assay);
    waiting.push(...nextAssays(algorithm, assay));
  }
  return reached;
}

/** Index of the first step from which one can come back to it. */
function firstLoop(algorithm: ReferenceAlgorithm): number | null {
  for (const [index, step] of algorithm.entries()) {
    const seen = new Set<string>();
    const waiting = nextAssays(algorithm, step.assay);
    for (let assay = waiting.pop(); assay !== undefined; assay = waiting.pop()) {
      if (assay === step.assay) return index;
      if (seen.has(assay)) continue;
      seen.add(assay);
      waiting.push(...nextAssays(algorithm, assay));
    }
  }
  return null;
}
