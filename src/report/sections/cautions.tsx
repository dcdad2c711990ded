import type { SectionProps } from "../context.ts";
import { Section } from "../parts/section.tsx";

/** What the report is not. */
export function Cautions({ report }: SectionProps) {
  const { cautions } = report.words;
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
