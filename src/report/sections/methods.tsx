import { hasLines } from "../../records/kit.ts";
import type { Report, SectionProps } from "../context.ts";
import { Facts } from "../parts/facts.tsx";
import { MethodParts } from "../parts/method-parts.tsx";
import { Section } from "../parts/section.tsx";
import { readersText } from "./study-facts.tsx";

/** How the numbers came about, in words; then each method with its formula, limits and sources. */
export function Methods({ report }: SectionProps) {
  const { methods: words } = report.words;
  return (
    <Section report={report} id="methods">
      <p>{words.lead}</p>
      <Facts items={words.topics(factsOf(report)).map(({ term, text }) => [term, text] as const)} />
      <MethodParts report={report} used={report.evaluation.provenance.methods} />
    </Section>
  );
}

function factsOf(report: Report) {
  const { codes, grammar, study: studyWords } = report.words;
  const { study, kits, clustered, decision } = report.evaluation;
  const [kit] = kits;
  const lines = kit !== undefined && hasLines(kit) ? kit : null;
  return {
    level: study.interval.level,
    interval: codes.intervals[study.interval.method],
    shape: study.records.shape,
    faint: lines === null ? null : codes.faint[lines.faint_line],
    window:
      kit?.reading_window === undefined
        ? null
        : studyWords.minutes(kit.reading_window.from_minutes, kit.reading_window.to_minutes),
    invalid: codes.invalidTreatments[study.treatment.invalid],
    outside: codes.windowTreatments[study.treatment.outside_window],
    repeat: codes.repeats[study.treatment.repeat],
    reader: grammar.sentence(readersText(report)),
    seed: study.seed,
    clustered: [...new Set(clustered.map(({ cluster }) => cluster))],
    control: decision?.control ?? "each",
  };
}
