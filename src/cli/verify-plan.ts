import { SOFTWARE_VERSION } from "../core/version.ts";
import { differences } from "../evaluation/differences.ts";
import type { Planning } from "../evaluation/plan/document.ts";
import { readPlanning } from "../evaluation/plan/read.ts";
import { writePlanning } from "../evaluation/plan/write.ts";
import { PLAN_FILE } from "../records/plan/plan-file.ts";
import { readEmbeddedPlanning, renderPlan } from "../report/plan/render-plan.tsx";
import { failed } from "./io.ts";
import { evaluatePlanFile } from "./plan-file.ts";
import type { Progress } from "./progress.ts";
import { type Findings, inputFindings } from "./verify-report.ts";

/** Whether a page says that it carries a plan. */
export function isPlanPage(html: string): boolean {
  return html.includes('<script type="application/json" id="planning">');
}

/** The plan file that a page was made from. */
export function planFileOf(html: string): string {
  return embedded(html).provenance.inputs[0]?.name ?? PLAN_FILE;
}

/**
 * Holds a plan's page against itself and, where a folder is given, against the plan file in it, planned anew.
 * @throws Refusal when there is no readable planning document in the page, or the plan can't be read
 */
export async function verifyPlan(html: string, folder: string | null, progress: Progress): Promise<Findings> {
  const planning = embedded(html);
  progress.step("drawing the page again");
  const same = (await renderPlan(planning)) === html;
  progress.end();
  const other = planning.software === SOFTWARE_VERSION ? "different" : "other_version";
  const page = same ? "same" : other;
  const software = { report: planning.software, now: SOFTWARE_VERSION };
  if (folder === null) return { holds: page !== "different", software, page, inputs: null, numbers: null };
  const name = planning.provenance.inputs[0]?.name ?? PLAN_FILE;
  const { planning: planned } = await evaluatePlanFile({ folder, name }, progress);
  const anew = readPlanning(JSON.parse(writePlanning(planned)));
  const inputs = inputFindings(planning, anew);
  const numbers = differences(withoutOrigin(planning), withoutOrigin(anew));
  const holds =
    page !== "different" && numbers.length === 0 && inputs.every((input) => input.state === "unchanged");
  return { holds, software, page, inputs, numbers };
}

function embedded(html: string): Planning {
  try {
    return readPlanning(readEmbeddedPlanning(html));
  } catch (error) {
    throw failed(`not a plan's page that can be read back: ${(error as Error).message}`);
  }
}

function withoutOrigin({ software: _software, provenance: _provenance, ...rest }: Planning) {
  return rest;
}
