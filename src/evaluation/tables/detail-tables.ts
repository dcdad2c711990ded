import type { Cell, Table } from "../csv.ts";
import type { Evaluation } from "../document.ts";
import { MEASURES } from "../measures.ts";
import { CELL_COLUMNS, cellColumns, ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

/** How often results were invalid, and the two measures under each treatment of them. */
export function invalidTable(evaluation: Evaluation): Table {
  const rows = evaluation.invalid.flatMap((invalid) => [
    [...cellColumns(invalid), null, "invalid_first_attempt", ...estimateColumns(invalid.firstAttempt)],
    [...cellColumns(invalid), null, "invalid_final", ...estimateColumns(invalid.final)],
    ...invalid.reasons.map(({ reason, people }) => [
      ...cellColumns(invalid),
      null,
      `reason: ${reason}`,
      people,
      invalid.final.count,
      null,
      null,
      null,
    ]),
    ...invalid.treatments.flatMap((treated) =>
      MEASURES.map((measure) => [
        ...cellColumns(invalid),
        treated.treatment,
        measure,
        ...estimateColumns(treated[measure]),
      ]),
    ),
  ]);
  return { name: "invalid", columns: [...CELL_COLUMNS, "treatment", "measure", ...ESTIMATE_COLUMNS], rows };
}

/** The two measures and the invalid rate in every group of every stratum. */
export function subgroupsTable(evaluation: Evaluation): Table {
  const rows = evaluation.subgroups.flatMap((subgroup) =>
    subgroup.groups.flatMap((group) =>
      ([...MEASURES, "invalid"] as const).map((measure) => {
        const test = measure === "invalid" ? null : subgroup.homogeneity[measure];
        return [
          ...cellColumns(subgroup),
          subgroup.stratum,
          subgroup.planned,
          group.group,
          measure,
          ...estimateColumns(group[measure]),
          test?.exactPValue ?? null,
          test?.trendPValue ?? null,
        ];
      }),
    ),
  );
  const columns = [
    ...CELL_COLUMNS,
    "stratum",
    "planned",
    "group",
    "measure",
    ...ESTIMATE_COLUMNS,
    "homogeneity_exact_p",
    "trend_p",
  ];
  return { name: "subgroups", columns, rows };
}

/** People at each step from enrolment to analysis. */
export function flowTable(evaluation: Evaluation): Table {
  const rows = evaluation.flows.flatMap((flow) => {
    const start = cellColumns(flow);
    const steps: [string, string | null, number][] = [
      ["enrolled", null, flow.enrolled],
      ...flow.before.map(
        ({ reason, people }) => ["not_eligible", reason, people] as [string, string, number],
      ),
      ["eligible", null, flow.eligible],
      ["rapid_not_done", null, flow.rapidNotDone],
      ["tested", null, flow.tested],
      ["first_device_invalid", null, flow.firstInvalid],
      ...flow.branches.flatMap(({ rapid, reference }) =>
        Object.entries(reference).map(
          ([status, people]) => [`rapid_${rapid}`, `reference_${status}`, people] as [string, string, number],
        ),
      ),
      ["read_outside_window", flow.outsideWindow.treatment, flow.outsideWindow.people],
      ...flow.setAside.map(({ reason, people }) => ["set_aside", reason, people] as [string, string, number]),
      ["analysed", null, flow.analysed],
    ];
    return steps.map((step): Cell[] => [...start, ...step]);
  });
  return { name: "flow", columns: [...CELL_COLUMNS, "step", "detail", "people"], rows };
}

/** What was found in the data, by rule and file. Every single issue is what `fourfold check` prints. */
export function queriesTable(evaluation: Evaluation): Table {
  return {
    name: "queries",
    columns: [
      "severity",
      "rule",
      "file",
      "consequence",
      "count",
      "first_row",
      "column",
      "expected",
      "received",
    ],
    rows: evaluation.queries.groups.map((group) => [
      group.severity,
      group.rule,
      group.file,
      group.consequence,
      group.count,
      group.examples[0]?.row ?? null,
      group.examples[0]?.column ?? null,
      group.examples[0]?.expected ?? null,
      group.examples[0]?.received ?? null,
    ]),
  };
}

/** People by joint reference status and joint rapid result of two analytes. */
export function jointTable(evaluation: Evaluation): Table {
  const SIGNS = ["++", "+-", "-+", "--"];
  const words = (signs: string) =>
    signs.replaceAll("+", "positive ").replaceAll("-", "negative ").trim().replace(" ", ", ");
  return {
    name: "joint",
    columns: ["first_analyte", "second_analyte", "kit", "specimen", "reader", "reference", "rapid", "people"],
    rows: evaluation.joint.flatMap((joint) =>
      joint.table.flatMap((row, reference) =>
        row.map((people, rapid) => [
          joint.analytes[0],
          joint.analytes[1],
          joint.kit,
          joint.specimen,
          joint.reader,
          words(SIGNS[reference] ?? ""),
          words(SIGNS[rapid] ?? ""),
          people,
        ]),
      ),
    ),
  };
}
