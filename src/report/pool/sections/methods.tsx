import { count } from "../../formats.ts";
import { Facts } from "../../parts/facts.tsx";
import { MethodParts } from "../../parts/method-parts.tsx";
import { Section } from "../../parts/section.tsx";
import type { PoolSectionProps } from "../context.ts";

/** How the numbers came about, in words; then each method with its formula, limits and sources. */
export function Methods({ report }: PoolSectionProps) {
  const { methods: words } = report.words.pool;
  const { file, provenance, studies, bivariate } = report.pooling;
  const facts = {
    level: file.level,
    studies: count(studies.length),
    points: count(bivariate.options.points),
  };
  return (
    <Section report={report} id="methods">
      <p>{words.lead}</p>
      <Facts items={words.topics(facts).map(({ term, text }) => [term, text] as const)} />
      <MethodParts report={report} used={provenance.methods} />
    </Section>
  );
}
