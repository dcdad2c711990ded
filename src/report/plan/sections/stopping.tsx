import type { StoppingPlan } from "../../../evaluation/plan/document.ts";
import { Section } from "../../parts/section.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { criterionName } from "../names.ts";
import { PlanNotes } from "../parts.tsx";
import { rulesOf } from "../render-plan-figures.ts";
import { StoppingRule } from "./stopping-rule.tsx";

/** Looks before the end: when the study stops, and what that costs and saves. */
export function Stopping({ report }: PlanSectionProps) {
  const { stopping: words } = report.words.plan;
  return (
    <Section report={report} id="stopping">
      <p>{words.lead}</p>
      {report.planning.stopping.map((plan, place) => (
        <OneStopping key={plan.stopping} report={report} plan={plan} place={place} />
      ))}
    </Section>
  );
}

interface Props {
  readonly report: PlanReport;
  readonly plan: StoppingPlan;
  readonly place: number;
}

function OneStopping({ report, plan, place }: Props) {
  const { stopping: words } = report.words.plan;
  const rules = rulesOf(plan);
  const name = criterionName(report, plan.criterion);
  const design = plan.twoStage === null ? "group_sequential" : "two_stage";
  return (
    <>
      <h3>{words.heading(report.words.grammar.sentence(name), words.designs[design])}</h3>
      <p>{asked(report, plan)}</p>
      {rules.map((rule) => (
        <StoppingRule key={rule.name} report={report} plan={plan} rule={rule} place={place} />
      ))}
      <PlanNotes
        report={report}
        notes={[
          ...(plan.twoStage?.notes ?? []),
          ...(plan.groupSequential?.notes ?? []),
          ...plan.confirmed.flatMap(({ rule }) => rule.notes),
        ]}
      />
    </>
  );
}

/** What the rule must hold to, and what one look at the end would need. */
function asked(report: PlanReport, { twoStage, groupSequential }: StoppingPlan): string {
  const { stopping: words } = report.words.plan;
  const finding = twoStage ?? groupSequential;
  if (finding === null) return "";
  const { unacceptable, expected } = finding.input;
  const { error, power } = finding.options;
  const { single } = finding.values;
  return [
    words.asks(unacceptable, error, expected, power),
    ...(groupSequential === null
      ? []
      : [words.spending[groupSequential.options.spending](groupSequential.options.failure)]),
    ...(single === null ? [] : [words.single(single.total, single.total - single.passFrom)]),
  ].join(" ");
}
