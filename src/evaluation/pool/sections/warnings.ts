import type { PoolAnswer, Pooling, PoolWarning } from "../document.ts";
import { MEASURES, type PoolWorktop } from "../worktop.ts";

type Models = Pick<Pooling, "bivariate" | "univariate" | "covariate" | "leftOut">;
type Answered = Omit<PoolAnswer, "warnings">;
type Code = PoolWarning["code"];

/** Fewer studies than this tell little of how much studies differ (common practice, no source). */
const FEW = 5;

/** What to know before the figures, gravest first. */
export function warningsOf(worktop: PoolWorktop, models: Models, answer: Answered): PoolWarning[] {
  return [
    ...noSummary(models, answer),
    ...borders(models, answer),
    ...few(worktop, answer),
    ...levels(worktop, models),
    ...differing(worktop, answer),
    ...hanging(answer),
    ...leftOut(models),
  ];
}

function warning(code: Code, message = "", measures: PoolWarning["measures"] = []): PoolWarning {
  return { code, measures: [...measures], message };
}

function noSummary({ bivariate, univariate }: Models, { basis }: Answered): PoolWarning[] {
  if (basis === "bivariate") return [];
  const absent = MEASURES.filter(
    (measure) => univariate[measure].values.binomial.logOdds.value === null || basis === null,
  );
  return [warning("no_summary", bivariate.notes[0]?.message ?? "", absent)];
}

function borders({ bivariate }: Models, { basis }: Answered): PoolWarning[] {
  if (basis !== "bivariate") return [];
  const { fit, betweenStudies } = bivariate.values;
  const unfinished = fit.converged
    ? []
    : [warning("not_converged", messageOf(bivariate.notes, "not_converged"))];
  const still = MEASURES.filter((measure) => betweenStudies[measure].value === 0);
  const message = messageOf(bivariate.notes, "boundary");
  return [...unfinished, ...(message === "" ? [] : [warning("boundary", message, still)])];
}

function messageOf(notes: Pooling["notes"], code: string): string {
  return [...new Set(notes.filter((one) => one.code === code).map(({ message }) => message))].join("; ");
}

function few({ studies }: PoolWorktop, { basis }: Answered): PoolWarning[] {
  return basis !== null && studies.length < FEW ? [warning("few_studies")] : [];
}

/** Whether the covariate tells studies apart by more than chance: then no summary over all is worth much. */
function levels({ file }: PoolWorktop, { covariate }: Models): PoolWarning[] {
  const parts = covariate?.values.covariate ?? null;
  const small = (p: number | null | undefined) => typeof p === "number" && p < 1 - file.level;
  if (parts === null || !small(parts.both.p)) return [];
  const measures = MEASURES.filter((measure) =>
    small(measure === "sensitivity" ? parts.sensitivityAlone.p : parts.specificityAlone.p),
  );
  return [warning("levels_differ", "", measures)];
}

function differing({ file }: PoolWorktop, answer: Answered): PoolWarning[] {
  const measures = MEASURES.filter((measure) => {
    const { alikeP, prediction } = answer[measure];
    return alikeP !== null && alikeP < 1 - file.level && prediction.lower !== null;
  });
  return measures.length === 0 ? [] : [warning("studies_differ", "", measures)];
}

function hanging({ criteria }: Answered): PoolWarning[] {
  const measures = criteria.filter(({ changedBy }) => changedBy.length > 0).map(({ measure }) => measure);
  return measures.length === 0 ? [] : [warning("verdict_hangs_on_one", "", measures)];
}

function leftOut({ leftOut: rows }: Models): PoolWarning[] {
  return rows.length === 0 ? [] : [warning("left_out")];
}
