import type { Cell, Table } from "../csv.ts";
import type { Planning } from "./document.ts";

/** Every table of a planning, tidy: one observation a row, full precision, no rounding. */
export function planningTables(planning: Planning): Table[] {
  return [
    criteriaTable(planning),
    powerTable(planning),
    widthsTable(planning),
    comparisonsTable(planning),
    enrolmentTable(planning),
    enrolmentCurveTable(planning),
    whatIfTable(planning),
    looksTable(planning),
    effortTable(planning),
  ];
}

function criteriaTable({ criteria }: Planning): Table {
  const rows = criteria.map(
    ({ criterion, analyte, measure, of, power, why, size, clustered, needed }): Cell[] => {
      const { first, stays } = size.values;
      return [
        criterion,
        analyte,
        measure,
        of,
        size.input.expected,
        size.input.direction,
        size.input.threshold,
        power,
        why,
        first.total,
        stays.total,
        stays.needed,
        stays.allowed,
        stays.power,
        clustered?.values.designEffect ?? null,
        needed,
      ];
    },
  );
  const columns = [
    "criterion",
    "analyte",
    "measure",
    "of",
    "expected",
    "direction",
    "threshold",
    "power_wanted",
    "why",
    "first_total",
    "total",
    "in_favour_needed",
    "against_allowed",
    "power",
    "design_effect",
    "needed",
  ];
  return { name: "criteria", columns, rows };
}

function powerTable({ criteria }: Planning): Table {
  const rows = criteria.flatMap(({ criterion, curve }) =>
    curve.map(({ total, needed, power }): Cell[] => [criterion, total, needed, power]),
  );
  return { name: "power", columns: ["criterion", "total", "in_favour_needed", "power"], rows };
}

function widthsTable({ widths }: Planning): Table {
  const rows = widths.map(({ width, analyte, of, size, needed }): Cell[] => [
    width,
    analyte,
    of,
    size.input.expected,
    size.input.halfWidth,
    size.options.assurance,
    size.values.expectedWidth.stays,
    size.values.assured.stays,
    size.values.normal.total,
    needed,
  ]);
  const columns = ["width", "analyte", "of", "expected", "half_width", "assurance"];
  return {
    name: "widths",
    columns: [...columns, "total_by_mean", "total_assured", "total_by_formula", "needed"],
    rows,
  };
}

function comparisonsTable({ comparisons }: Planning): Table {
  const rows = comparisons.map((planned): Cell[] => {
    const { comparison, analyte, of, kind, design, groups, needed } = planned;
    const paired = planned.pairedDifference ?? planned.pairedNoninferiority;
    const asked = paired ?? planned.unpairedDifference ?? planned.unpairedNoninferiority;
    const margin = planned.pairedNoninferiority ?? planned.unpairedNoninferiority;
    return [
      comparison,
      analyte,
      of,
      kind,
      design,
      asked?.input.first ?? null,
      asked?.input.second ?? null,
      paired?.input.discordant ?? null,
      margin?.input.margin ?? null,
      asked?.values.formula.unrounded ?? null,
      asked?.values.exact.stays ?? null,
      asked?.values.exact.power ?? null,
      groups?.first ?? null,
      groups?.second ?? null,
      needed,
    ];
  });
  const columns = [
    "comparison",
    "analyte",
    "of",
    "kind",
    "design",
    "first",
    "second",
    "discordant",
    "margin",
  ];
  const sizes = ["by_formula", "exact", "power", "first_group", "second_group", "needed"];
  return { name: "comparisons", columns: [...columns, ...sizes], rows };
}

function enrolmentTable({ enrolment }: Planning): Table {
  const rows = enrolment.flatMap(({ analyte, needed, forTested, enrolment: asked }) =>
    (asked?.values.targets ?? []).map((target): Cell[] => [
      analyte,
      needed.positives,
      needed.negatives,
      needed.tested,
      target.assurance,
      target.forPositives,
      target.forNegatives,
      target.total,
      forTested,
    ]),
  );
  const columns = ["analyte", "positives", "negatives", "tested", "assurance"];
  return {
    name: "enrolment",
    columns: [...columns, "for_positives", "for_negatives", "total", "for_tested"],
    rows,
  };
}

function enrolmentCurveTable({ enrolment }: Planning): Table {
  const rows = enrolment.flatMap(({ analyte, curve }) =>
    curve.map(({ total, chance }): Cell[] => [analyte, total, chance]),
  );
  return { name: "enrolment-chance", columns: ["analyte", "enrolled", "chance"], rows };
}

function whatIfTable({ whatIf }: Planning): Table {
  const rows = whatIf.flatMap(({ criterion, grid }) =>
    grid.values.cells.flatMap(({ expected, threshold, first, stays, enrol }) => {
      const start: Cell[] = [criterion, expected, threshold, first, stays];
      if (enrol.length === 0) return [[...start, null, null, null]];
      return enrol.map((one): Cell[] => [...start, one.prevalence, one.expected, one.assured]);
    }),
  );
  const columns = ["criterion", "expected", "threshold", "first_total", "total"];
  return { name: "what-if", columns: [...columns, "prevalence", "enrol_expected", "enrol_assured"], rows };
}

function looksTable({ stopping }: Planning): Table {
  const rows = stopping.flatMap(({ stopping: id, criterion, confirmed }) =>
    confirmed.flatMap(({ name, rule }) =>
      rule.input.looks.map(({ total, passFrom, failAt }, at): Cell[] => [
        id,
        criterion,
        name,
        at + 1,
        total,
        passFrom,
        failAt,
      ]),
    ),
  );
  const columns = ["stopping", "criterion", "design", "look", "total", "pass_from", "fail_at"];
  return { name: "looks", columns, rows };
}

function effortTable({ effort, plan }: Planning): Table {
  const rows = (effort?.values.bySite ?? []).map(({ label, people, kits }): Cell[] => {
    const site = plan.recruitment.sites.find(({ id }) => id === label);
    return [label, site?.per_day ?? null, site?.opens_after ?? null, people, kits];
  });
  return { name: "sites", columns: ["site", "per_day", "opens_after", "people", "kits"], rows };
}
