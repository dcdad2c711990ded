import type { Cell, Table } from "../csv.ts";
import type { Algorithms } from "./document.ts";
import { drawnTables } from "./drawn-tables.ts";

/** Every table of the algorithms, tidy: one observation a row, full precision, no rounding. */
export function algorithmsTables(algorithms: Algorithms): Table[] {
  return [
    outcomesTable(algorithms),
    pathsTable(algorithms),
    flowTable(algorithms),
    predictiveTable(algorithms),
    dependenceTable(algorithms),
    sweepTable(algorithms),
    twoWayTable(algorithms),
    ...drawnTables(algorithms),
    ordersTable(algorithms),
    observedTable(algorithms),
  ];
}

function outcomesTable({ answer }: Algorithms): Table {
  const rows = answer.lines.map((line): Cell[] => [
    line.channel,
    line.algorithm,
    line.analyte,
    line.prevalence,
    line.sensitivity.value,
    line.specificity.value,
    line.ppv.value,
    line.ppv.lower,
    line.ppv.upper,
    line.independent.ppv,
    line.chance.ppv,
    line.npv.value,
    line.npv.lower,
    line.npv.upper,
    line.independent.npv,
    line.chance.all,
    line.meets.all,
    line.per100000.truePositives,
    line.per100000.falsePositives,
    line.per100000.missed,
    line.per100000.trueNegatives,
    line.per100000.inconclusive,
    line.per100000.lost,
    line.cost.perClient.value,
    line.cost.perCaseFound,
    line.cost.perFalsePositiveAverted,
    line.cost.withErrors,
    line.minutes.mean,
  ]);
  const columns = ["channel", "algorithm", "analyte", "prevalence", "sensitivity", "specificity"];
  const values = ["ppv", "ppv_lower", "ppv_upper", "ppv_independent", "chance_ppv"];
  const negative = ["npv", "npv_lower", "npv_upper", "npv_independent", "chance_all", "meets_all"];
  const people = ["true_positives", "false_positives", "missed", "true_negatives", "inconclusive", "lost"];
  const costs = ["cost", "per_case_found", "per_false_positive_averted", "cost_with_errors", "minutes"];
  return { name: "outcomes", columns: [...columns, ...values, ...negative, ...people, ...costs], rows };
}

function pathsTable({ outcomes }: Algorithms): Table {
  const rows = outcomes.flatMap(({ channel, algorithm, outcome }) =>
    outcome.values.paths.map(({ steps, status, diseased, nondiseased }): Cell[] => [
      channel,
      algorithm,
      steps.map(({ step, result }) => `${step} ${result}`).join("; "),
      status,
      diseased,
      nondiseased,
    ]),
  );
  return {
    name: "paths",
    columns: ["channel", "algorithm", "path", "status", "diseased", "nondiseased"],
    rows,
  };
}

function flowTable({ outcomes }: Algorithms): Table {
  const rows = outcomes.flatMap(({ channel, algorithm, flow }) =>
    flow.ends.map(({ end, diseased, nondiseased }): Cell[] => [
      channel,
      algorithm,
      end,
      diseased,
      nondiseased,
    ]),
  );
  return { name: "per-10000", columns: ["channel", "algorithm", "end", "diseased", "nondiseased"], rows };
}

function predictiveTable({ predictive }: Algorithms): Table {
  const rows = predictive.flatMap(({ algorithm, points }) =>
    points.flatMap((point): Cell[][] => [
      ...point.afterReactive.map((ppv, at): Cell[] => [
        algorithm,
        point.prevalence,
        `ppv after ${at + 1} reactive`,
        ppv,
      ]),
      [algorithm, point.prevalence, "ppv", point.ppv],
      [algorithm, point.prevalence, "npv", point.npv],
      [algorithm, point.prevalence, "ppv if independent", point.independentPpv],
      [algorithm, point.prevalence, "npv if independent", point.independentNpv],
    ]),
  );
  return { name: "predictive", columns: ["algorithm", "prevalence", "measure", "value"], rows };
}

function dependenceTable({ dependence }: Algorithms): Table {
  const rows = dependence.pairs.flatMap((pair) =>
    (["diseased", "nondiseased"] as const).map((truth): Cell[] => {
      const estimate = pair.estimated?.values[truth].phi;
      const { lowestPhi, highestPhi, bothReactive } = pair.table.values[truth];
      return [
        pair.analyte,
        pair.first,
        pair.second,
        truth,
        pair.source,
        pair[truth],
        estimate?.value ?? null,
        estimate?.lower ?? null,
        estimate?.upper ?? null,
        lowestPhi,
        highestPhi,
        bothReactive,
      ];
    }),
  );
  const columns = ["analyte", "first", "second", "truth", "source", "phi"];
  const more = ["estimate", "lower", "upper", "lowest", "highest", "both_reactive"];
  return { name: "dependence", columns: [...columns, ...more], rows };
}

function sweepTable({ dependence }: Algorithms): Table {
  const rows = dependence.sweeps.flatMap(({ channel, algorithm, over, first, second, ...swept }) => {
    const start: Cell[] = [channel, algorithm, over, first, second];
    return [
      ...swept.nondiseased.map((at): Cell[] => [
        ...start,
        "nondiseased",
        at.value,
        at.ppv,
        at.falsePositives,
        null,
        null,
      ]),
      ...swept.diseased.map((at): Cell[] => [
        ...start,
        "diseased",
        at.value,
        null,
        null,
        at.sensitivity,
        at.missed,
      ]),
    ];
  });
  const columns = ["channel", "algorithm", "over", "first", "second", "truth", "value"];
  const found = ["ppv", "false_positives", "sensitivity", "missed"];
  return { name: "dependence-sweep", columns: [...columns, ...found], rows };
}

function twoWayTable({ dependence }: Algorithms): Table {
  const rows = dependence.twoWay.flatMap(({ algorithm, first, second, cells }) =>
    cells.map(({ prevalence, phi, ppv, reaches }): Cell[] => [
      algorithm,
      first,
      second,
      prevalence,
      phi,
      ppv,
      reaches,
    ]),
  );
  const columns = ["algorithm", "first", "second", "prevalence", "phi", "ppv", "reaches_target"];
  return { name: "two-way", columns, rows };
}

function ordersTable({ stock }: Algorithms): Table {
  const rows = stock.map(({ channel, kit, clients, order, money }): Cell[] => {
    const { mean, standardDeviation, ordered } = order.values;
    return [
      channel ?? "all",
      kit,
      clients,
      mean,
      standardDeviation,
      ordered.runs,
      ordered.kits,
      ordered.packs,
      ordered.runsOut,
      money,
    ];
  });
  const columns = ["channel", "kit", "clients", "mean_runs", "sd_runs", "runs", "kits", "packs"];
  return { name: "orders", columns: [...columns, "runs_out", "money"], rows };
}

function observedTable({ observed }: Algorithms): Table {
  const rows = observed.map(({ channel, algorithm, first, second, discordance }): Cell[] => {
    const { input, values } = discordance;
    const judged = values.discordance;
    return [
      channel,
      algorithm,
      first,
      second,
      input.observed?.tested ?? null,
      input.observed?.firstReactive ?? null,
      input.observed?.secondNonreactive ?? null,
      judged?.share.value ?? null,
      values.discordant.value,
      values.ifIndependent,
      judged?.lower ?? null,
      judged?.upper ?? null,
      judged?.twoSided ?? null,
    ];
  });
  const columns = [
    "channel",
    "algorithm",
    "first",
    "second",
    "tested",
    "first_reactive",
    "second_nonreactive",
  ];
  const found = ["share", "expected", "expected_if_independent", "fewest", "most", "p_two_sided"];
  return { name: "observed", columns: [...columns, ...found], rows };
}
