import { placeOf } from "../cells.ts";
import type { ReferenceStatus } from "../model.ts";
import { type ReferenceResult, referenceStatus } from "../reference-algorithm.ts";
import type { Context } from "./context.ts";
import type { People, Person } from "./people.ts";
import type { ReferenceTests } from "./reference-tests.ts";

/** A person's reference status of one analyte, and how it came about. */
export interface Status {
  readonly status: ReferenceStatus;
  /** Assays that the algorithm went through. */
  readonly path: readonly string[];
}

export type StatusOf = (person: Person, analyte: string) => Status;

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
  tested: (person: Person, analyte: string) => boolean,
  context: Context,
): StatusOf {
  const statuses = new Map<string, Map<Person, Status>>();
  for (const analyte of context.study.analytes) {
    const algorithm = analyte.reference.algorithm ?? [];
    const byPerson = new Map<Person, Status>();
    statuses.set(analyte.id, byPerson);
    for (const person of people.counted) {
      const runs = new Map<string, ReferenceResult[]>();
      for (const run of tests.runs.get(person)?.get(analyte.id) ?? []) {
        const list = runs.get(run.assay);
        if (list === undefined) runs.set(run.assay, [run.result]);
        else list.push(run.result);
      }
      const outcome = referenceStatus(algorithm, runs);
      byPerson.set(person, { status: outcome.status, path: outcome.path });
      const place = placeOf(people.table, person.row, "participant_id");
      if (outcome.deadEnd !== null) {
        const last = runs.get(outcome.deadEnd)?.at(-1);
        const expected = `a way on from this result of ${outcome.deadEnd} for ${analyte.id}`;
        context.issues.add("reference_dead_end", place, expected, last, "kept");
      } else if (outcome.wanting !== null && tested(person, analyte.id)) {
        const rule = outcome.path.length === 0 ? "missing_reference" : "reference_incomplete";
        const expected = `a result of ${outcome.wanting} for ${analyte.id}`;
        context.issues.add(rule, place, expected, person.id, "kept");
      }
    }
  }
  return (person, analyte) => statuses.get(analyte)?.get(person) ?? NOT_DONE;
}
