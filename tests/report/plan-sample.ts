import { readFileSync } from "node:fs";
import { join } from "node:path";
import * as v from "valibot";
import { parse } from "yaml";
import type { Planning } from "../../src/evaluation/plan/document.ts";
import { evaluatePlan } from "../../src/evaluation/plan/evaluate-plan.ts";
import { PlanSchema } from "../../src/records/plan/plan.ts";
import { renderPlan } from "../../src/report/plan/render-plan.tsx";
import { HOSTILE } from "./sample-evaluation.ts";

/** Plans to look at: the example, and what a user may write that is smaller, impossible or hostile. */
const EXAMPLE = readFileSync(join(import.meta.dirname, "../../data/plan/plan.yaml"), "utf8");
const INPUTS = [{ name: "plan.yaml", bytes: EXAMPLE.length, sha256: "0".repeat(64) }];

type Draft = v.InferInput<typeof PlanSchema>;

function planned(change: (draft: Draft) => Draft): Planning {
  const draft = v.parse(PlanSchema, parse(EXAMPLE));
  return evaluatePlan(v.parse(PlanSchema, change(draft)), INPUTS);
}

const known = new Map<string, Planning>();
function once(name: string, make: () => Planning): Planning {
  const found = known.get(name) ?? make();
  known.set(name, found);
  return found;
}

/** The example plan as it stands. */
export const examplePlanning = () => once("example", () => planned((draft) => draft));

/** One analyte, one criterion, nothing else. */
export const smallPlanning = () =>
  once("small", () =>
    planned(({ format, id, title, specimens, interval, analytes, criteria }) => ({
      format,
      id,
      title,
      specimens,
      interval,
      analytes: analytes.slice(0, 1),
      criteria: criteria.slice(0, 1),
    })),
  );

/** One criterion that no number of people can show, since less is expected than demanded. */
export const impossiblePlanning = () =>
  once("impossible", () =>
    planned((draft) => ({
      ...draft,
      decision: { control: "each" },
      criteria: draft.criteria.map((criterion, place) =>
        place === 0 ? { ...criterion, expected: 0.93 } : criterion,
      ),
      stopping: [],
      what_if: [{ criterion: draft.criteria[0]?.id ?? "", expected: [0.93, 0.96], thresholds: [0.95] }],
    })),
  );

/** Nothing can be planned. */
export const hopelessPlanning = () =>
  once("hopeless", () =>
    planned(({ format, id, title, specimens, interval, analytes, criteria }) => ({
      format,
      id,
      title,
      specimens,
      interval,
      analytes: analytes.slice(0, 1),
      criteria: criteria.slice(0, 1).map((criterion) => ({ ...criterion, expected: 0.93 })),
    })),
  );

/** Titles that try to be markup. */
export const hostilePlanning = () =>
  once("hostile", () =>
    planned((draft) => ({
      ...draft,
      title: HOSTILE,
      analytes: draft.analytes.map((analyte) => ({ ...analyte, title: `${HOSTILE}${analyte.id}` })),
      criteria: draft.criteria.map((criterion) => ({ ...criterion, source: HOSTILE })),
    })),
  );

/** A grid of what-ifs with several criteria. */
export const gridPlanning = () =>
  once("grid", () =>
    planned((draft) => ({
      ...draft,
      what_if: [
        {
          criterion: draft.criteria[0]?.id ?? "",
          expected: [0.96, 0.97, 0.98, 0.985, 0.99],
          thresholds: [0.93, 0.95, 0.97],
          prevalences: [0.03, 0.06],
        },
      ],
    })),
  );

export const PLANS: Readonly<Record<string, () => Planning>> = {
  example: examplePlanning,
  small: smallPlanning,
  impossible: impossiblePlanning,
  hopeless: hopelessPlanning,
  hostile: hostilePlanning,
  grid: gridPlanning,
};

const pages = new Map<string, Promise<string>>();
/** The page of a plan; drawn once for each name. */
export function planPageOf(name: string): Promise<string> {
  const found = pages.get(name) ?? renderPlan((PLANS[name] ?? examplePlanning)());
  pages.set(name, found);
  return found;
}
