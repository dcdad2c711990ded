import { useState } from "preact/hooks";
import { ReactiveBar } from "../../../report/figures/reactive-bar.tsx";
import { trustAt } from "../../explore/live.ts";
import type { LookedAt } from "../../explore/looked-at.ts";
import { ratioScale } from "../../explore/scale.ts";
import { Dial } from "./dial.tsx";
import { change, type PartProps } from "./part.ts";
import { useLive } from "./use-live.ts";

const SCALE = ratioScale(0.0005, 0.9);
/** Where a study without programmes begins to look. */
const BEGIN = 0.05;
const BAR = 214;

type Prevalence = Extract<LookedAt["subject"], { kind: "prevalence" }>;

/** The prevalence of one programme, moved; what a result is worth there follows at once. */
export function PrevalencePart(props: PartProps) {
  const { looking, words } = props;
  const { prevalence: own } = words.explore;
  const [at, setAt] = useState<string | null>(null);
  const choices = looking.choices.filter(
    ({ subject }) => subject.kind === "prevalence" && !isComparison(props, subject.analyte),
  );
  const choice = choices.find(({ path }) => path === at) ?? choices[0];
  if (choice === undefined) return <p>{own.none}</p>;
  const named = ({ subject }: LookedAt) => {
    const { programme, analyte } = subject as Prevalence;
    return own.one(programme, analyteTitle(props, analyte));
  };
  return (
    <>
      <label class="field">
        <span>{own.where}</span>
        <select value={choice.path} onChange={(event) => setAt(event.currentTarget.value)}>
          {choices.map((one) => (
            <option key={one.path} value={one.path}>
              {named(one)}
            </option>
          ))}
        </select>
      </label>
      <Moved key={choice.path} {...props} choice={choice} />
    </>
  );
}

function Moved(props: PartProps & { choice: LookedAt }) {
  const { choice, words } = props;
  const live = useLive(typeof choice.now === "number" ? choice.now : BEGIN, (value) =>
    change(props, choice, value),
  );
  const planned = typeof choice.planned === "number" ? choice.planned : null;
  return (
    <>
      <Dial
        label={words.explore.prevalence.label}
        live={live}
        scale={SCALE}
        planned={planned}
        words={words.explore}
      />
      <Trusted {...props} analyte={(choice.subject as Prevalence).analyte} prevalence={live.value} />
    </>
  );
}

/** Predictive values and natural frequencies at the prevalence of the moment. */
function Trusted({
  shown,
  looking,
  words,
  analyte,
  prevalence,
}: PartProps & { analyte: string; prevalence: number }) {
  const { prevalence: own } = words.explore;
  const trust = trustAt(shown.evaluation, looking.study, analyte, prevalence);
  if (trust === null) return null;
  const { truePositives, falsePositives, falseNegatives, reactive } = trust;
  const specimen = looking.planned.specimens.find(({ type }) => type === trust.specimen)?.title;
  const known =
    truePositives !== null && falsePositives !== null && falseNegatives !== null && reactive !== null;
  return (
    <dl class="live-trust">
      <dt>{own.ppv}</dt>
      <dd>{own.estimate(trust.ppv)}</dd>
      <dt>{own.npv}</dt>
      <dd>{own.estimate(trust.npv)}</dd>
      <dt>{own.people}</dt>
      <dd>
        {known ? (
          <>
            {own.reactive(reactive)}
            <ReactiveBar
              truePositives={truePositives}
              falsePositives={falsePositives}
              most={reactive}
              width={BAR}
            />
            <span>{own.split(truePositives, falsePositives)}</span>
            <span>{own.missed(falseNegatives)}</span>
          </>
        ) : (
          own.nobody
        )}
      </dd>
      <dd class="live-from">{own.from(words.inReport.grammar.inline(specimen ?? trust.specimen))}</dd>
    </dl>
  );
}

function isComparison({ looking }: PartProps, id: string): boolean {
  return looking.planned.analytes.find((analyte) => analyte.id === id)?.reference.role === "comparator";
}

function analyteTitle({ looking }: PartProps, id: string): string {
  return looking.planned.analytes.find((analyte) => analyte.id === id)?.title ?? id;
}
