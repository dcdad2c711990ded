import type { Planning } from "../../evaluation/plan/document.ts";
import { planningTables } from "../../evaluation/plan/tables.ts";
import { writePlanning } from "../../evaluation/plan/write.ts";
import { filesBeside, type PageFile } from "../files-beside.ts";
import type { RenderedFigure } from "../render-figures.ts";
import { renderPlan, renderPlanFigures } from "./render-plan.tsx";

export const PLAN_PAGE = "plan.html";

/** Everything that the folder of a plan holds. The same planning gives the same bytes. */
export async function planFiles(
  planning: Planning,
  figures?: readonly RenderedFigure[],
): Promise<PageFile[]> {
  const drawn = figures ?? (await renderPlanFigures(planning));
  return [
    { name: PLAN_PAGE, content: await renderPlan(planning, { figures: drawn }) },
    { name: "planning.json", content: writePlanning(planning) },
    ...filesBeside(planningTables(planning), drawn),
  ];
}
