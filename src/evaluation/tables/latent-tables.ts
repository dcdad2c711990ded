import type { Cell, Table } from "../csv.ts";
import type { Evaluation, LatentClass } from "../document.ts";

/** Models in which no test is beyond doubt, where the study file states any. */
export function latentTables({ latentClass }: Evaluation): Table[] {
  if (latentClass.length === 0) return [];
  const tables = [peopleTable(latentClass), estimatesTable(latentClass), patternsTable(latentClass)];
  const others = priorsTable(latentClass);
  return others.rows.length > 0 ? [...tables, others] : tables;
}

/** Where the people of each model stand with each test: counted people add up for every test. */
function peopleTable(models: readonly LatentClass[]): Table {
  const rows = models.flatMap(({ id, tests, people }) => [
    ...tests.flatMap((test) =>
      Object.entries(test.people).map(([end, count]): Cell[] => [id, test.id, NAMES[end] ?? end, count]),
    ),
    ...people.setAside.map(({ reason, people: count }): Cell[] => [id, null, reason, count]),
  ]);
  return { name: "latent_people", columns: ["model", "test", "end", "people"], rows };
}

const NAMES: Readonly<Record<string, string>> = { outsideWindow: "outside_window", notDone: "not_done" };

interface Limits {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Sensitivity, specificity, prevalence and couplings: naive, by maximum likelihood, before and after the data. */
function estimatesTable(models: readonly LatentClass[]): Table {
  const rows = models.flatMap((model) => [
    ...naiveRows(model),
    ...likelihoodRows(model),
    ...bayesianRows(model),
  ]);
  const columns = ["model", "of", "measure", "by", "value", "lower", "upper", "error"];
  return { name: "latent_class", columns, rows };
}

function naiveRows({ id, naive }: LatentClass): Cell[][] {
  return naive.flatMap(({ test, ...measures }) =>
    Object.entries(measures).map(([measure, found]) => limitsRow([id, test, measure, "naive"], found, null)),
  );
}

function limitsRow(head: readonly Cell[], { value, lower, upper }: Limits, error: number | null): Cell[] {
  return [...head, value, lower, upper, error];
}

function likelihoodRows({ id, likelihood }: LatentClass): Cell[][] {
  if (likelihood === null) return [];
  return sharesOf(likelihood).map(({ of, measure, found }) =>
    limitsRow([id, of, measure, "likelihood"], found.estimate, found.standardError),
  );
}

function bayesianRows({ id, bayesian }: LatentClass): Cell[][] {
  if (bayesian === null) return [];
  return sharesOf(bayesian).flatMap(({ of, measure, found }) => {
    const after = { value: found.median, lower: found.lower, upper: found.upper };
    const before = { value: found.prior.median, lower: found.prior.lower, upper: found.prior.upper };
    return [
      limitsRow([id, of, measure, "prior"], before, null),
      limitsRow([id, of, measure, "posterior"], after, found.standardDeviation),
    ];
  });
}

interface Shares<Found> {
  readonly tests: readonly {
    readonly name: string;
    readonly sensitivity: Found;
    readonly specificity: Found;
  }[];
  readonly populations: readonly { readonly label: string; readonly prevalence: Found }[];
  readonly couplings: readonly {
    readonly between: string;
    readonly diseased: Found;
    readonly nondiseased: Found;
  }[];
}

function sharesOf<Found>({ tests, populations, couplings }: Shares<Found>) {
  return [
    ...tests.flatMap(({ name: of, sensitivity, specificity }) => [
      { of, measure: "sensitivity", found: sensitivity },
      { of, measure: "specificity", found: specificity },
    ]),
    ...populations.map(({ label: of, prevalence }) => ({ of, measure: "prevalence", found: prevalence })),
    ...couplings.flatMap(({ between: of, diseased, nondiseased }) => [
      { of, measure: "coupling_diseased", found: diseased },
      { of, measure: "coupling_nondiseased", found: nondiseased },
    ]),
  ];
}

const SIGNS = { reactive: "+", nonreactive: "-", not_done: "?" } as const;

/** People seen with each pattern of results, and those expected. */
function patternsTable(models: readonly LatentClass[]): Table {
  const rows = models.flatMap(({ id, likelihood, bayesian }) => [
    ...(likelihood?.patterns ?? []).map(
      ({ population, results, observed, expected, residual, diseased }): Cell[] => [
        ...[id, "likelihood", population, signsOf(results)],
        ...[observed, expected, null, null, residual, diseased, null],
      ],
    ),
    ...(bayesian?.check.patterns ?? []).map(
      ({ population, results, observed, expected, lower, upper, p }): Cell[] => [
        ...[id, "posterior", population, signsOf(results)],
        ...[observed, expected, lower, upper, null, null, p],
      ],
    ),
  ]);
  const columns = [
    ...["model", "by", "population", "results"],
    ...["observed", "expected", "lower", "upper", "residual", "diseased", "p"],
  ];
  return { name: "latent_patterns", columns, rows };
}

/** One sign for each test, in the order of the model: + reactive, - nonreactive, ? not done; in brackets. */
function signsOf(results: readonly (keyof typeof SIGNS)[]): string {
  return `[${results.map((result) => SIGNS[result]).join("")}]`;
}

/** The same shares under other priors. */
function priorsTable(models: readonly LatentClass[]): Table {
  const rows = models.flatMap(({ id, priorSensitivity }) =>
    (priorSensitivity?.alternatives ?? []).flatMap(({ name, shares }) =>
      shares.map(({ parameter, median, lower, upper, shift }): Cell[] => [
        ...[id, name, parameter],
        ...[median, lower, upper, shift],
      ]),
    ),
  );
  return {
    name: "latent_priors",
    columns: ["model", "priors", "share", "median", "lower", "upper", "shift"],
    rows,
  };
}
