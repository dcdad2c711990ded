import type { OtherKit } from "./kits-of-plan.ts";
import type { Plan } from "./plan.ts";

/** Records of a kit with lines: the tables of the template. */
export const LINE_RECORDS = {
  shape: "lines",
  participants: "participants.csv",
  specimens: "specimens.csv",
  index_tests: "index_tests.csv",
  line_readings: "line_readings.csv",
  interpretations: "interpretations.csv",
  reference_tests: "reference_tests.csv",
  lots: "lots.csv",
  operators: "operators.csv",
};

const PERSON = "participant_id";
const SITE = "site_id";

/** Records of a kit without lines: one row for each person, a column for each result. */
export function resultRecords(plan: Plan, others: readonly OtherKit[]) {
  const several = plan.specimens.length > 1 ? { specimen: "specimen_type" } : {};
  return {
    shape: "results",
    table: "results.csv",
    columns: { person: PERSON, site: SITE, ...several },
    analytes: mapped(plan, others),
    codes: {
      rapid: { reactive: ["reactive"], nonreactive: ["nonreactive"], invalid: ["invalid"] },
      reference: { positive: ["positive"], negative: ["negative"], indeterminate: ["indeterminate"] },
    },
  };
}

/** The header of that table. */
export function resultsHeader(plan: Plan, others: readonly OtherKit[]): string {
  const results = mapped(plan, others).flatMap(({ rapid, reference }) => [rapid, reference]);
  const several = plan.specimens.length > 1 ? ["specimen_type"] : [];
  return `${[...new Set([PERSON, SITE, ...several, ...results])].join(",")}\n`;
}

function mapped({ analytes }: Plan, others: readonly OtherKit[]) {
  const own = analytes.map(({ id }) => ({ analyte: id, rapid: `${id}_rapid`, reference: `${id}_reference` }));
  const further = others.flatMap((kit) =>
    kit.analytes.map((analyte) => ({
      analyte,
      kit: kit.id,
      rapid: `${analyte}_${kit.id}`,
      reference: `${analyte}_reference`,
    })),
  );
  return [...own, ...further];
}
