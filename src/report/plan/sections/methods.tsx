import { Facts } from "../../parts/facts.tsx";
import { MethodParts } from "../../parts/method-parts.tsx";
import { Section } from "../../parts/section.tsx";
import type { PlanSectionProps } from "../context.ts";

/** How the numbers came about, in words; then each method with its formula, limits and sources. */
export function Methods({ report }: PlanSectionProps) {
  const { methods: words } = report.words.plan;
  const { plan, provenance } = report.planning;
  const { method, level } = plan.interval;
  const facts = { level, interval: report.words.codes.intervals[method], seed: plan.seed };
  return (
    <Section report={report} id="methods">
      <p>{words.lead}</p>
      <Facts items={words.topics(facts).map(({ term, text }) => [term, text] as const)} />
      <MethodParts report={report} used={provenance.methods} />
    </Section>
  );
}
