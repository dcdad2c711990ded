import type { InterpretationCheck, RapidResult } from "../../records/model.ts";
import type { Interpretation } from "../document.ts";
import type { Worktop } from "../worktop.ts";

const RESULTS: readonly RapidResult[] = ["reactive", "nonreactive", "invalid"];

/**
 * Typed results held against the same reader's lines. Two different faults: the typed result is not
 * what the kit's rule makes of the lines (misread the rule); or the lines themselves are not those
 * that another reader saw (saw differently). Counts are of device results, not of people.
 */
export function interpretationSection(worktop: Worktop): Interpretation[] {
  const groups = new Map<string, InterpretationCheck[]>();
  for (const check of worktop.records.interpretations) {
    const key = `${check.analyte}\u0000${check.reader}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [check]);
    else group.push(check);
  }
  const order = worktop.study.analytes.map((analyte) => analyte.id);
  return [...groups.values()]
    .map(oneReader)
    .sort(
      (one, other) =>
        order.indexOf(one.analyte) - order.indexOf(other.analyte) || (one.reader < other.reader ? -1 : 1),
    );
}

function oneReader(checks: readonly InterpretationCheck[]): Interpretation {
  const { analyte, reader } = checks[0] as InterpretationCheck;
  const agree = checks.filter((check) => check.typed === check.derived).length;
  const compared = checks.filter((check) => check.other !== null);
  return {
    analyte,
    reader,
    typed: checks.length,
    agree,
    misreadRule: RESULTS.flatMap((derived) =>
      RESULTS.filter((typed) => typed !== derived).map((typed) => ({
        derived,
        typed,
        count: checks.filter((check) => check.derived === derived && check.typed === typed).length,
      })),
    ).filter((entry) => entry.count > 0),
    comparedLines: compared.length,
    sawDifferently: compared.filter((check) => check.other !== check.derived).length,
  };
}
