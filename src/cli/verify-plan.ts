import type { Planning } from "../evaluation/plan/document.ts";
import { readPlanning } from "../evaluation/plan/read.ts";
import { writePlanning } from "../evaluation/plan/write.ts";
import { PLAN_FILE } from "../records/plan/plan-file.ts";
import { readEmbeddedPlanning, renderPlan } from "../report/plan/render-plan.tsx";
import { evaluatePlanFile } from "./plan-file.ts";
import type { Progress } from "./progress.ts";
import { readBack, verifyDocument } from "./verify-document.ts";
import type { Findings } from "./verify-findings.ts";

const PAGE = {
  kind: "a plan's page",
  read: (html: string) => readPlanning(readEmbeddedPlanning(html)),
};

/** Whether a page says that it carries a plan. */
export function isPlanPage(html: string): boolean {
  return html.includes('<script type="application/json" id="planning">');
}

/** The plan file that a page was made from. */
export function planFileOf(html: string): string {
  return readBack(html, PAGE).provenance.inputs[0]?.name ?? PLAN_FILE;
}

/**
 * Holds a plan's page against itself and, where a folder is given, against the plan file in it, planned anew.
 * @throws Refusal when there is no readable planning document in the page, or the plan can't be read
 */
export function verifyPlan(html: string, folder: string | null, progress: Progress): Promise<Findings> {
  const makeAnew = async (within: string, made: Planning): Promise<Planning> => {
    const name = made.provenance.inputs[0]?.name ?? PLAN_FILE;
    const { planning } = await evaluatePlanFile({ folder: within, name }, progress);
    return readPlanning(JSON.parse(writePlanning(planning)));
  };
  const verified = {
    ...PAGE,
    draw: (made: Planning) => renderPlan(made),
    anew: folder === null ? null : (made: Planning) => makeAnew(folder, made),
  };
  return verifyDocument(html, verified, progress);
}
