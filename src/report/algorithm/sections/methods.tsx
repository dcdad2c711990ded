import { Facts } from "../../parts/facts.tsx";
import { MethodParts } from "../../parts/method-parts.tsx";
import { Section } from "../../parts/section.tsx";
import type { AlgorithmSectionProps } from "../context.ts";
import { drawsText } from "../draws.ts";

/** How the numbers came about, in words; then each method with its formula, limits and sources. */
export function Methods({ report }: AlgorithmSectionProps) {
  const { methods: words } = report.words.algorithm;
  const { file, provenance, dependence } = report.algorithms;
  const facts = { level: file.level, draws: drawsText(report), seed: file.seed, kind: dependence.kind };
  return (
    <Section report={report} id="methods">
      <p>{words.lead}</p>
      <Facts items={words.topics(facts).map(({ term, text }) => [term, text] as const)} />
      <MethodParts report={report} used={provenance.methods} />
    </Section>
  );
}
