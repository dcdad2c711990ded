import type { Study } from "../../records/study.ts";
import type { Chosen } from "../schema/exploration.ts";

/** What a choice is about; words for it are the report's and the workbench's business. */
export type ChoiceSubject =
  | { readonly kind: "interval_method" | "level" | "invalid" | "outside_window" | "repeat" }
  | { readonly kind: "criterion"; readonly criterion: Study["criteria"][number] }
  | { readonly kind: "prevalence"; readonly programme: string | null; readonly analyte: string }
  | { readonly kind: "stratum"; readonly stratum: Study["strata"][number] }
  | { readonly kind: "specimen" | "site" | "selection" }
  | { readonly kind: "group"; readonly stratum: Study["strata"][number] };

/** One place of a study's plan that may be changed to see what follows. */
export interface Choice {
  readonly path: string;
  readonly subject: ChoiceSubject;
  /** What the study says there. */
  readonly value: Chosen;
  /** The study with another value there: not yet held against the schema of study files. */
  readonly put: (study: Study, value: Chosen) => Study;
}

/** The programme of a study that names none, while one is looked at. */
export const LOOKED_AT = "looked-at";

/**
 * Every choice of a study's plan that may be changed to see what follows, in the order of the study file, with
 * the strata that are shown and the people who count at the end.
 */
export function choicesOf(study: Study): Choice[] {
  return [
    ...criterionChoices(study),
    ...prevalenceChoices(study),
    ...treatmentChoices(study),
    ...intervalChoices(study),
    ...strataChoices(study),
    ...subsetChoices(study),
  ];
}

function criterionChoices({ criteria }: Study): Choice[] {
  return criteria.map((criterion) => {
    const side = criterion.at_least === undefined ? "at_most" : "at_least";
    return {
      path: `criteria.${criterion.id}.${side}`,
      subject: { kind: "criterion", criterion },
      value: criterion[side] ?? null,
      put: (study, value) => ({
        ...study,
        criteria: study.criteria.map((one) =>
          one.id === criterion.id ? { ...one, [side]: value as number } : one,
        ),
      }),
    };
  });
}

function prevalenceChoices({ prevalences, analytes }: Study): Choice[] {
  const of = (id: string, programme: string | null, analyte: string, value: Chosen): Choice => ({
    path: `prevalences.${id}.values.${analyte}`,
    subject: { kind: "prevalence", programme, analyte },
    value,
    put: (study, put) => withPrevalence(study, id, analyte, put),
  });
  if (prevalences.length === 0) return analytes.map((analyte) => of(LOOKED_AT, null, analyte.id, null));
  return prevalences.flatMap(({ id, title, values }) =>
    Object.entries(values).map(([analyte, value]) => of(id, id === LOOKED_AT ? null : title, analyte, value)),
  );
}

/** `null` takes the prevalence away, and a programme without any with it. */
function withPrevalence(study: Study, id: string, analyte: string, value: Chosen): Study {
  const known = study.prevalences.some((programme) => programme.id === id);
  const programmes = known
    ? study.prevalences
    : [...study.prevalences, { id, title: "Programme looked at", values: {} }];
  const prevalences = programmes.flatMap((programme) => {
    if (programme.id !== id) return [programme];
    const { [analyte]: _old, ...others } = programme.values;
    const values = value === null ? others : { ...programme.values, [analyte]: value as number };
    return Object.keys(values).length === 0 ? [] : [{ ...programme, values }];
  });
  return { ...study, prevalences };
}

function treatmentChoices({ treatment }: Study): Choice[] {
  return (["invalid", "outside_window", "repeat"] as const).map((kind) => ({
    path: `treatment.${kind}`,
    subject: { kind },
    value: treatment[kind],
    put: (study, value) => ({
      ...study,
      treatment: { ...study.treatment, [kind]: value } as Study["treatment"],
    }),
  }));
}

function intervalChoices({ interval }: Study): Choice[] {
  const put = (field: "method" | "level"): Choice["put"] => {
    return (study, value) => ({
      ...study,
      interval: { ...study.interval, [field]: value } as Study["interval"],
    });
  };
  return [
    {
      path: "interval.method",
      subject: { kind: "interval_method" },
      value: interval.method,
      put: put("method"),
    },
    { path: "interval.level", subject: { kind: "level" }, value: interval.level, put: put("level") },
  ];
}

/** What leaves the study itself as it is: which people count, and what is shown. */
const same: Choice["put"] = (study) => study;

function strataChoices({ strata }: Study): Choice[] {
  return strata.map((stratum) => ({
    path: shownPath(stratum.id),
    subject: { kind: "stratum", stratum },
    value: true,
    put: same,
  }));
}

function subsetChoices({ strata }: Study): Choice[] {
  const kinds = (["specimen", "site", "selection"] as const).map(
    (kind): Choice => ({ path: `subset.${kind}`, subject: { kind }, value: null, put: same }),
  );
  const groups = strata.map(
    (stratum): Choice => ({
      path: groupPath(stratum.id),
      subject: { kind: "group", stratum },
      value: null,
      put: same,
    }),
  );
  return [...kinds, ...groups];
}

export function shownPath(stratum: string): string {
  return `strata.${stratum}.shown`;
}

export function groupPath(stratum: string): string {
  return `subset.strata.${stratum}`;
}
