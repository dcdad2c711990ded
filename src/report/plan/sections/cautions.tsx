import { CautionList } from "../../parts/caution-list.tsx";
import { Section } from "../../parts/section.tsx";
import type { PlanSectionProps } from "../context.ts";

/** What the plan is not. */
export function Cautions({ report }: PlanSectionProps) {
  const { cautions } = report.words.plan;
  return (
    <Section report={report} id="cautions">
      <CautionList {...cautions} />
    </Section>
  );
}
