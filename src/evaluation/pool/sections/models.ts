import { bivariate } from "../../../methods/pooling/bivariate.ts";
import { influence } from "../../../methods/pooling/influence.ts";
import { smallStudy } from "../../../methods/pooling/small-study.ts";
import { univariate } from "../../../methods/pooling/univariate.ts";
import type { PoolMeasure } from "../../../records/pool/pool-schema.ts";
import type { Pooling } from "../document.ts";
import { countsOf, type PoolWorktop } from "../worktop.ts";

type Models = Pick<
  Pooling,
  "bivariate" | "univariate" | "approximations" | "influence" | "covariate" | "smallStudy"
>;

/** Leaving out each of more studies than this takes too long. */
export const MOST_LEFT_OUT = 150;
const CORRECTION = "zero_cells";

/** Every model of the studies: exact, by itself, approximate, without each study, by covariate, by size. */
export function modelsSection(worktop: PoolWorktop): Models {
  const { file } = worktop;
  const studies = worktop.studies.map(countsOf);
  const { level } = file;
  const exact = { kind: "binomial" } as const;
  return {
    bivariate: worktop.ask(bivariate, { studies, covariate: null, likelihood: exact }, { level }),
    univariate: {
      sensitivity: alone(worktop, "sensitivity"),
      specificity: alone(worktop, "specificity"),
    },
    approximations: (["normal_ml", "normal_reml"] as const).map((kind) => {
      const likelihood = { kind, correction: CORRECTION } as const;
      return worktop.ask(bivariate, { studies, covariate: null, likelihood }, { level, spread: "none" });
    }),
    influence:
      studies.length > MOST_LEFT_OUT
        ? null
        : worktop.ask(influence, { studies, likelihood: exact, criterion: null }, { level }),
    covariate: byCovariate(worktop),
    smallStudy: worktop.ask(smallStudy, { studies, correction: "all" }, { level }),
  };
}

function alone({ studies, file, ask }: PoolWorktop, measure: PoolMeasure) {
  const counted = studies.map((study) => {
    const [count, wrong] =
      measure === "sensitivity"
        ? [study.truePositives, study.falseNegatives]
        : [study.trueNegatives, study.falsePositives];
    return { label: study.label, count, total: count + wrong };
  });
  return ask(univariate, { studies: counted, correction: CORRECTION }, { level: file.level });
}

/** The studies that say their level, with a summary point for each. */
function byCovariate({ studies, file, ask }: PoolWorktop): Models["covariate"] {
  if (file.covariate === undefined) return null;
  const known = studies.filter(({ level }) => level !== null);
  if (known.length === 0) return null;
  const levels = known.map(({ level }) => level as string);
  const input = {
    studies: known.map(countsOf),
    covariate: { name: file.covariate, levels },
    likelihood: { kind: "binomial" as const },
  };
  return ask(bivariate, input, { level: file.level, spread: "none" });
}
