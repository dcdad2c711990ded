import { CautionList } from "../../parts/caution-list.tsx";
import { Section } from "../../parts/section.tsx";
import type { AlgorithmSectionProps } from "../context.ts";

/** What the page is not. */
export function Cautions({ report }: AlgorithmSectionProps) {
  const { cautions } = report.words.algorithm;
  return (
    <Section report={report} id="cautions">
      <CautionList {...cautions} />
    </Section>
  );
}
