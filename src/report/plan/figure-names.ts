import { slug } from "../names.ts";

type PlanFigure = "power" | "enrolment" | "what-if" | "looks";

/** The name of a plan's chart: unique by its place, told apart by its id; fit to name a file. */
export function planFigureName(kind: PlanFigure, place: number, id: string): string {
  return [kind, String(place + 1), slug(id)].filter((part) => part !== "").join("-");
}
