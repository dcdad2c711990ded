import { Section } from "../../parts/section.tsx";
import type { PlanSectionProps } from "../context.ts";

/** What the plan is not. */
export function Cautions({ report }: PlanSectionProps) {
  const { cautions } = report.words.plan;
  return (
    <Section report={report} id="cautions">
      <p>{cautions.lead}</p>
      <ol class="cautions">
        {cautions.items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ol>
    </Section>
  );
}
