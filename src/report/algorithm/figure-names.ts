import { slug } from "../names.ts";

type AlgorithmFigure = "stepwise" | "sweep" | "map" | "tornado" | "frontier" | "best";

/** The name of an algorithm's chart: unique by its place, told apart by its id; fit to name a file. */
export function algorithmFigureName(kind: AlgorithmFigure, place: number, id: string): string {
  return [kind, String(place + 1), slug(id)].filter((part) => part !== "").join("-");
}
