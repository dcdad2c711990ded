import { Section } from "../../parts/section.tsx";
import type { AlgorithmSectionProps } from "../context.ts";

/** What the page is not. */
export function Cautions({ report }: AlgorithmSectionProps) {
  const { cautions } = report.words.algorithm;
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
