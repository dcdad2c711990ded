import { firstSets } from "../first-sets.ts";
import type { Retested } from "../gathered.ts";
import type { PairedSet } from "../model.ts";
import type { Context } from "./context.ts";
import type { People } from "./people.ts";
import type { ReferenceTests } from "./reference-tests.ts";
import type { StatusOf } from "./statuses.ts";

interface Sources {
  readonly people: People;
  readonly tests: ReferenceTests;
  readonly statusOf: StatusOf;
}

/**
 * Who was tested by an assay that the reference algorithm did not ask for, by whether the rapid
 * result agreed with the first reference result. Further tests on just those who disagree are the
 * mark of a discrepant analysis. One count for each analyte and kit, from its first paired set.
 */
export function retested(sources: Sources, sets: readonly PairedSet[], { study }: Context): Retested[] {
  return firstSets(sets).map((set) => {
    const index = study.analytes.findIndex((entry) => entry.id === set.analyte);
    const sums = {
      analyte: set.analyte,
      kit: set.kit,
      people: 0,
      discordant: 0,
      retested: 0,
      retestedDiscordant: 0,
    };
    const first = study.analytes[index]?.reference.algorithm?.[0]?.assay;
    for (const pair of set.pairs) {
      const person = sources.people.byId.get(pair.person);
      if (person === undefined || (pair.rapid !== "reactive" && pair.rapid !== "nonreactive")) continue;
      const runs = sources.tests.runsOf(person, index);
      const result = runs.find((run) => run.assay === first)?.result;
      if (result === undefined) continue;
      const { path } = sources.statusOf(person, index);
      const beyond = runs.some((run) => !path.includes(run.assay));
      const again = beyond || sources.tests.hasFurther(person, index);
      const differs = (result === "reactive") !== (pair.rapid === "reactive");
      sums.people += 1;
      if (differs) sums.discordant += 1;
      if (again) sums.retested += 1;
      if (again && differs) sums.retestedDiscordant += 1;
    }
    return sums;
  });
}
