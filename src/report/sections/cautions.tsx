import type { SectionProps } from "../context.ts";
import { CautionList } from "../parts/caution-list.tsx";
import { Section } from "../parts/section.tsx";

/** What the report is not. */
export function Cautions({ report }: SectionProps) {
  const { cautions } = report.words;
  return (
    <Section report={report} id="cautions">
      <CautionList {...cautions} />
    </Section>
  );
}
