import { spawnSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { bivariate } from "../../src/methods/pooling/bivariate.ts";
import { influence } from "../../src/methods/pooling/influence.ts";
import type { Study } from "../../src/methods/pooling/study-fields.ts";
import { drawnStudies, USUAL } from "../methods/pooling/drawn-studies.ts";
import type { BenchRow } from "./run.ts";

const BINOMIAL = { kind: "binomial" as const };
const fitted = (studies: readonly Study[], options: object) =>
  compute(bivariate, { studies: [...studies], covariate: null, likelihood: BINOMIAL }, options);

/** What a page asks for while somebody waits, with the seconds it may take. */
const QUESTIONS: readonly [string, number, () => unknown][] = [
  ["bivariate, 20 studies, profile limits of everything", 0.5, withAll(20)],
  ["bivariate, 100 studies, profile limits of everything", 2, withAll(100)],
  [
    "influence, 20 studies",
    1,
    () =>
      compute(influence, { studies: drawnStudies(20, USUAL, 5), likelihood: BINOMIAL, criterion: null }, {}),
  ],
];

function withAll(size: number): () => unknown {
  const studies = drawnStudies(size, USUAL, 5);
  return () => fitted(studies, { interval: "profile" });
}

/** The bivariate fit against R's lme4 in the same run, and questions against their seconds. */
export async function benchPooling(): Promise<BenchRow[]> {
  const questions = QUESTIONS.map(([name, most, ask]): BenchRow => {
    const seconds = quickest(ask, 3);
    return {
      name: `${name}, against ${most} s`,
      ratio: seconds / most,
      bar: 1,
      detail: `${(seconds * 1000).toFixed(0)} ms`,
    };
  });
  return [...[12, 100].flatMap(againstMixedModels), ...questions];
}

function quickest(run: () => unknown, turns: number): number {
  let seconds = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < turns; turn += 1) {
    const start = performance.now();
    run();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  return seconds;
}

interface Opinion {
  readonly seconds: number;
  readonly logLikelihood: number;
  readonly numbers: readonly number[];
}

const SCRIPT = `
d <- matrix(scan(file("stdin"), quiet = TRUE), ncol = 4, byrow = TRUE); n <- nrow(d)
suppressMessages(library(lme4))
long <- data.frame(study = factor(rep(1:n, 2)), sens = rep(1:0, each = n), spec = rep(0:1, each = n),
  right = c(d[, 1], d[, 4]), wrong = c(d[, 2], d[, 3]))
fit <- function(...) glmer(cbind(right, wrong) ~ 0 + sens + spec + (0 + sens + spec | study), long, binomial, ...)
seconds <- min(sapply(1:5, function(i) system.time(m <<- fit(nAGQ = 1))[["elapsed"]]))
m <- fit(nAGQ = 1, control = glmerControl(optimizer = "bobyqa", tolPwrss = 1e-12, optCtrl = list(rhobeg = .002, rhoend = 2e-8, maxfun = 1e5)))
s <- VarCorr(m)$study
cat(sprintf("%.12g", c(seconds, logLik(m), fixef(m), attr(s, "stddev"), attr(s, "correlation")[1, 2])))
`;

/** lme4's Laplace fit of the same studies; `null` where R or lme4 is not installed. */
function mixedModels(studies: readonly Study[]): Opinion | null {
  const rows = studies.map(({ truePositives, falseNegatives, falsePositives, trueNegatives }) =>
    [truePositives, falseNegatives, falsePositives, trueNegatives].join(" "),
  );
  const { status, stdout } = spawnSync("Rscript", ["-e", SCRIPT], {
    input: rows.join("\n"),
    encoding: "utf8",
  });
  if (status !== 0) return null;
  const [seconds = 0, logLikelihood = 0, ...numbers] = stdout.trim().split(/\s+/).map(Number);
  return { seconds, logLikelihood, numbers };
}

function againstMixedModels(size: number): BenchRow[] {
  const studies = drawnStudies(size, USUAL, 7);
  const other = mixedModels(studies);
  if (other === null) {
    console.log(`  R with lme4 is not installed: ${size} studies are not compared`);
    return [];
  }
  const rough = fitted(studies, { points: 1, spread: "none" }).values;
  const ours = [
    rough.summary.sensitivity.logit.value,
    rough.summary.specificity.logit.value,
    rough.betweenStudies.sensitivity.value,
    rough.betweenStudies.specificity.value,
    rough.betweenStudies.correlation.value,
  ];
  const apart = Math.max(
    ...ours.map((value, k) => Math.abs((value ?? Number.NaN) - (other.numbers[k] ?? Number.NaN))),
  );
  const lost = Math.abs((rough.fit.logLikelihood ?? Number.NaN) - other.logLikelihood);
  const full = quickest(() => fitted(studies, { spread: "none" }), 10);
  const laplace = quickest(() => fitted(studies, { spread: "none", points: 1 }), 10);
  const limits = quickest(() => fitted(studies, {}), 5);
  const ms = (seconds: number) => `${(seconds * 1000).toFixed(1)} ms`;
  return [
    {
      name: `${size} studies: 15 by 15 places against lme4's Laplace`,
      ratio: full / other.seconds,
      bar: 1,
      detail: `${ms(full)} (Laplace ${ms(laplace)}, with profile limits ${ms(limits)}), lme4 ${ms(other.seconds)}`,
    },
    {
      name: `${size} studies: Laplace, estimates apart from lme4's, against 1e-4`,
      ratio: apart / 1e-4,
      bar: 1,
      detail: apart.toExponential(1),
    },
    {
      name: `${size} studies: Laplace, log-likelihood apart from lme4's, against 1e-4`,
      ratio: lost / 1e-4,
      bar: 1,
      detail: lost.toExponential(1),
    },
  ];
}
