import type { Cell, Table } from "../csv.ts";
import type { PooledFit, Pooling } from "./document.ts";
import { MEASURES } from "./worktop.ts";

/** The document as tables, ready to be written: one row an observation. */
export function poolingTables(pooling: Pooling): Table[] {
  return [
    studiesTable(pooling),
    summaryTable(pooling),
    modelsTable(pooling),
    regionsTable(pooling),
    ...(pooling.influence === null ? [] : [leaveOneOutTable(pooling)]),
    ...(pooling.answer.levels.length === 0 ? [] : [levelsTable(pooling)]),
    funnelTable(pooling),
    ...(pooling.leftOut.length === 0 ? [] : [leftOutTable(pooling)]),
  ];
}

function studiesTable({ studies, bivariate }: Pooling): Table {
  const { shrunken } = bivariate.values;
  const rows = studies.map((study, at): Cell[] => {
    const drawn = shrunken[at];
    return [
      study.study,
      study.level,
      study.truePositives,
      study.falsePositives,
      study.falseNegatives,
      study.trueNegatives,
      ...MEASURES.flatMap((measure): Cell[] => {
        const { value, lower, upper } = study[measure];
        return [value, lower, upper, drawn?.[measure].value ?? null];
      }),
    ];
  });
  const counts = ["true_positives", "false_positives", "false_negatives", "true_negatives"];
  const estimates = MEASURES.flatMap((measure) => [
    measure,
    `${measure}_lower`,
    `${measure}_upper`,
    `${measure}_shrunken`,
  ]);
  return { name: "studies", columns: ["study", "level", ...counts, ...estimates], rows };
}

function summaryTable({ answer }: Pooling): Table {
  const rows = MEASURES.map((measure): Cell[] => {
    const { summary, prediction, betweenSd, alikeP, together } = answer[measure];
    return [
      measure,
      answer.basis,
      summary.value,
      summary.lower,
      summary.upper,
      prediction.lower,
      prediction.upper,
      betweenSd.value,
      betweenSd.lower,
      betweenSd.upper,
      alikeP,
      together.count,
      together.total,
      together.value,
      together.lower,
      together.upper,
    ];
  });
  const summary = ["measure", "model", "summary", "lower", "upper", "new_place_lower", "new_place_upper"];
  const spread = ["between_sd", "between_sd_lower", "between_sd_upper", "p_alike"];
  const together = ["right", "all", "together", "together_lower", "together_upper"];
  return { name: "summary", columns: [...summary, ...spread, ...together], rows };
}

/** Names of the likelihoods in every table. */
const fitRows = ({ input, values }: PooledFit): Cell[][] =>
  MEASURES.map((measure) => {
    const { value, lower, upper } = values.summary[measure].proportion;
    const { likelihood } = input;
    const { betweenStudies, fit } = values;
    return [
      `bivariate ${likelihood.kind}`,
      measure,
      value,
      lower,
      upper,
      betweenStudies[measure].value,
      betweenStudies.correlation.value,
      fit.logLikelihood,
    ];
  });

function modelsTable({ bivariate, approximations, univariate }: Pooling): Table {
  const alone = MEASURES.map((measure): Cell[] => {
    const { proportion, betweenSd, logLikelihood } = univariate[measure].values.binomial;
    const { value, lower, upper } = proportion;
    return ["univariate binomial", measure, value, lower, upper, betweenSd.value, null, logLikelihood];
  });
  const columns = ["model", "measure", "summary", "lower", "upper", "between_sd", "correlation"];
  return {
    name: "models",
    columns: [...columns, "log_likelihood"],
    rows: [...fitRows(bivariate), ...alone, ...approximations.flatMap(fitRows)],
  };
}

function regionsTable({ bivariate }: Pooling): Table {
  const { regions } = bivariate.values;
  const rows = (["confidence", "prediction", "curve"] as const).flatMap((line) =>
    regions[line].map(({ sensitivity, specificity }): Cell[] => [line, sensitivity, specificity]),
  );
  return { name: "summary-plot", columns: ["line", "sensitivity", "specificity"], rows };
}

function leaveOneOutTable({ influence }: Pooling): Table {
  const rows = (influence?.values.without ?? []).map((row): Cell[] => [
    row.label,
    row.sensitivity.value,
    row.sensitivity.lower,
    row.sensitivity.upper,
    row.specificity.value,
    row.specificity.lower,
    row.specificity.upper,
    row.distance,
    row.residual.sensitivity,
    row.residual.specificity,
  ]);
  const found = MEASURES.flatMap((measure) => [measure, `${measure}_lower`, `${measure}_upper`]);
  const columns = ["without", ...found, "distance", "residual_sensitivity", "residual_specificity"];
  return { name: "leave-one-out", columns, rows };
}

function levelsTable({ answer }: Pooling): Table {
  const rows = answer.levels.flatMap((level) =>
    MEASURES.map((measure): Cell[] => {
      const { summary, prediction } = level[measure];
      const { value, lower, upper } = summary;
      return [level.level, level.studies, measure, value, lower, upper, prediction.lower, prediction.upper];
    }),
  );
  const columns = ["level", "studies", "measure", "summary", "lower", "upper"];
  return { name: "levels", columns: [...columns, "new_place_lower", "new_place_upper"], rows };
}

function funnelTable({ smallStudy }: Pooling): Table {
  const rows = smallStudy.values.list.map((row): Cell[] => [
    row.label,
    row.effectivePeople,
    row.inverseRootSize,
    row.logOddsRatio,
    row.standardError,
  ]);
  const columns = ["study", "effective_people", "inverse_root_size", "log_odds_ratio", "standard_error"];
  return { name: "small-studies", columns, rows };
}

function leftOutTable({ leftOut }: Pooling): Table {
  const rows = leftOut.map(({ study, row, column, expected, received }): Cell[] => [
    study,
    row,
    column,
    expected,
    received,
  ]);
  return { name: "left-out", columns: ["study", "row", "column", "expected", "received"], rows };
}
