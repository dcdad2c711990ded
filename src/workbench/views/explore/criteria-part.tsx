import { subjectInWords } from "../../../report/exploration-lines.ts";
import { Strip } from "../../../report/figures/strip.tsx";
import { judgedNow } from "../../explore/live.ts";
import type { LookedAt } from "../../explore/looked-at.ts";
import { thresholdScale } from "../../explore/scale.ts";
import { Dial } from "./dial.tsx";
import { change, type PartProps } from "./part.ts";
import { useLive } from "./use-live.ts";

const STRIP = 190;

/** The criteria's thresholds, moved; the verdicts follow at once. */
export function CriteriaPart(props: PartProps) {
  const { looking, words } = props;
  const choices = looking.choices.filter(({ subject }) => subject.kind === "criterion");
  if (choices.length === 0) return <p>{words.explore.criteria.none}</p>;
  return (
    <>
      {choices.map((choice) => (
        <Threshold key={choice.path} {...props} choice={choice} />
      ))}
    </>
  );
}

function Threshold(props: PartProps & { choice: LookedAt }) {
  const { choice, shown, looking, words } = props;
  const planned = choice.planned as number;
  const live = useLive(choice.now as number, (value) => change(props, choice, value));
  if (choice.subject.kind !== "criterion") return null;
  const { criterion } = choice.subject;
  const study = choice.put(looking.study, live.value);
  const { estimate, verdict } = judgedNow(shown.evaluation, study, criterion.id);
  const label = subjectInWords(looking.planned, choice.subject, words.inReport);
  const direction = criterion.at_least === undefined ? "at_most" : "at_least";
  const sign = direction === "at_least" ? "≥" : "≤";
  return (
    <fieldset class="threshold">
      <legend>{label}</legend>
      <Dial
        label={label}
        live={live}
        scale={thresholdScale(planned)}
        planned={planned}
        sign={sign}
        words={words.explore}
      />
      <p class="live-verdict">
        <span>{words.explore.prevalence.estimate(estimate)}</span>{" "}
        <output class={`verdict ${verdict.replace("_", "-")}`} aria-label={words.explore.criteria.verdict}>
          {words.inReport.codes.verdicts[verdict]}
        </output>
      </p>
      <Strip
        estimate={estimate}
        domain={domainOf(live.value, planned, estimate.lower, estimate.upper)}
        criterion={live.value}
        direction={direction}
        verdict={verdict}
        width={STRIP}
      />
    </fieldset>
  );
}

/** One of two lines, so that the drawing stays still while the threshold moves. */
function domainOf(...shares: readonly (number | null)[]): readonly [number, number] {
  const known = shares.filter((share) => share !== null);
  if (known.every((share) => share >= 0.5)) return known.every((share) => share >= 0.8) ? [0.8, 1] : [0.5, 1];
  return known.every((share) => share <= 0.25) ? [0, 0.25] : [0, 1];
}
