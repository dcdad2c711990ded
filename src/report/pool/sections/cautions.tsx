import { CautionList } from "../../parts/caution-list.tsx";
import { Section } from "../../parts/section.tsx";
import type { PoolSectionProps } from "../context.ts";

/** What the page is not. */
export function Cautions({ report }: PoolSectionProps) {
  const { cautions } = report.words.pool;
  return (
    <Section report={report} id="cautions">
      <CautionList {...cautions} />
    </Section>
  );
}
