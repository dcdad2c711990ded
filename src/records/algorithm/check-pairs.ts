import { named } from "../named.ts";
import type { Fault } from "../yaml-file.ts";
import type { AlgorithmFile, FilePair } from "./algorithm-schema.ts";

type Path = readonly (string | number)[];

/** What is said of pairs of kits: of kits that there are, of analytes that both show, and once each. */
export function checkPairs(
  { dependence, kits, analytes }: AlgorithmFile,
  unknown: Fault,
  wrong: Fault,
): void {
  const ids = kits.map(({ id }) => id);
  if (dependence?.kind === "shared") {
    for (const id of Object.keys(dependence.loadings)) {
      named(["dependence", "loadings", id], id, ids, "a kit of this file", unknown);
    }
  }
  if (dependence?.kind !== "pairs") return;
  const seen = new Set<string>();
  dependence.pairs.forEach((pair, at) => {
    const path = ["dependence", "pairs", at];
    pair.kits.forEach((id, place) => {
      named([...path, "kits", place], id, ids, "a kit of this file", unknown);
    });
    if (pair.analyte !== undefined) {
      const names = analytes.map(({ id }) => id);
      named([...path, "analyte"], pair.analyte, names, "an analyte of this file", unknown);
    }
    const both = analytes.filter(({ id }) =>
      pair.kits.every((one) => {
        const shown = kits.find((kit) => kit.id === one)?.analytes;
        return shown === undefined || Object.hasOwn(shown, id);
      }),
    );
    const meant = both.filter(({ id }) => pair.analyte === undefined || pair.analyte === id);
    if (meant.length === 0) wrong([...path, "kits"], "two kits that show the same analyte", pair.kits);
    for (const { id } of meant) {
      const key = [id, ...[...pair.kits].sort()].join(" ");
      if (seen.has(key)) wrong([...path, "kits"], `each pair once for ${id}`, pair.kits);
      seen.add(key);
    }
    checkCounts(pair, [...path, "counts"], wrong);
  });
}

/** Without both results of both kits no correlation can be estimated. */
function checkCounts({ counts }: FilePair, path: Path, fault: Fault): void {
  if (counts === undefined) return;
  for (const truth of ["positive", "negative"] as const) {
    const { both, first, second, neither } = counts[truth];
    const margins = [both + first, second + neither, both + second, first + neither];
    if (margins.every((people) => people > 0)) continue;
    const expected =
      "reactive and non-reactive results of each kit (without them no correlation can be estimated: state it)";
    fault([...path, truth], expected, counts[truth]);
  }
}
