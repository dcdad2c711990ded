import type { MethodText } from "../../evaluation/catalogue.ts";
import { hasLines } from "../../records/kit.ts";
import type { Report, SectionProps } from "../context.ts";
import { Facts } from "../parts/facts.tsx";
import { Section } from "../parts/section.tsx";
import { readersText } from "./study-facts.tsx";

/** How the numbers came about, in words; then each method with its formula, limits and sources. */
export function Methods({ report }: SectionProps) {
  const { methods: words } = report.words;
  const used = new Set(report.evaluation.provenance.methods.map(({ id }) => id));
  const texts = report.methodTexts.filter(({ id }) => used.has(id));
  return (
    <Section report={report} id="methods">
      <p>{words.lead}</p>
      <Facts items={words.topics(factsOf(report)).map(({ term, text }) => [term, text] as const)} />
      {texts.length === 0 ? null : <h3>{words.listHeading}</h3>}
      {texts.map((text) => (
        <MethodPart key={text.id} report={report} text={text} />
      ))}
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

function MethodPart({ report, text }: { report: Report; text: MethodText }) {
  const { methods: words } = report.words;
  const version = report.evaluation.provenance.methods.find(({ id }) => id === text.id)?.version ?? 1;
  return (
    <div class="method">
      <h4>
        {text.title}{" "}
        <span class="place">
          {text.id}, {words.version(version)}
        </span>
      </h4>
      <p>{text.question}</p>
      <Facts
        items={[
          [
            words.formula,
            <span key="formula" class="formula">
              {text.formula}
            </span>,
          ],
          [words.caution, text.caution],
          [
            words.sources,
            <ul key="sources">
              {text.sources.map((source) => (
                <li key={source.citation}>
                  {source.citation}
                  {source.seen ? null : <span class="memory"> ({words.memory})</span>}
                </li>
              ))}
            </ul>,
          ],
        ]}
      />
    </div>
  );
}
