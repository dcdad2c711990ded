import { placeOf } from "../cells.ts";
import type { ReferenceStatus } from "../model.ts";
import { type ReferenceOutcome, type ReferenceResult, referenceStatus } from "../reference-algorithm.ts";
import type { Context } from "./context.ts";
import type { People, Person } from "./people.ts";
import type { ReferenceRun } from "./reference-run.ts";
import type { ReferenceTests } from "./reference-tests.ts";

/** A person's reference status of one analyte, and how it came about. */
interface Status {
  readonly status: ReferenceStatus;
  /** Assays that the algorithm went through. */
  readonly path: readonly string[];
}

/** Analytes are named by their place in the study file. */
export type StatusOf = (person: Person, analyte: number) => Status;

const NOT_DONE: Status = { status: "not_done", path: [] };

/**
 * Runs the reference algorithm for every person. A person with a rapid result and no final status
 * becomes an issue on the person's row.
 *
 * @param tested whether the person has a rapid result of the analyte
 */
export function runAlgorithm(
  people: People,
  tests: ReferenceTests,
  tested: (person: Person, analyte: number) => boolean,
  context: Context,
): StatusOf {
  const statuses = context.study.analytes.map((analyte, index) => {
    const algorithm = analyte.reference.algorithm ?? [];
    const byPerson: Status[] = [];
    for (const person of people.counted) {
      const runs = tests.runsOf(person, index);
      const outcome = referenceStatus(algorithm, (assay) => resultsOf(runs, assay));
      byPerson[person.index] = outcome;
      if (outcome.status === "positive" || outcome.status === "negative") continue;
      if (outcome.deadEnd === null && !tested(person, index)) continue;
      speakOf(outcome, { person, analyte: analyte.id, runs }, people, context);
    }
    return byPerson;
  });
  return (person, analyte) => statuses[analyte]?.[person.index] ?? NOT_DONE;
}

function resultsOf(runs: readonly ReferenceRun[], assay: string): ReferenceResult[] {
  const results: ReferenceResult[] = [];
  for (const run of runs) if (run.assay === assay) results.push(run.result);
  return results;
}

interface Whose {
  readonly person: Person;
  readonly analyte: string;
  readonly runs: readonly ReferenceRun[];
}

function speakOf(outcome: ReferenceOutcome, whose: Whose, people: People, { issues }: Context): void {
  const { person, analyte, runs } = whose;
  const place = placeOf(people.table, person.row, "participant_id");
  if (outcome.deadEnd !== null) {
    const last = resultsOf(runs, outcome.deadEnd).at(-1);
    const expected = `a way on from this result of ${outcome.deadEnd} for ${analyte}`;
    issues.add("reference_dead_end", place, expected, last, "kept");
  } else if (outcome.wanting !== null) {
    const rule = outcome.path.length === 0 ? "missing_reference" : "reference_incomplete";
    issues.add(rule, place, `a result of ${outcome.wanting} for ${analyte}`, person.id, "kept");
  }
}
