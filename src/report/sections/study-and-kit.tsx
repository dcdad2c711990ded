import type { SectionProps } from "../context.ts";
import { isComparator } from "../names.ts";
import { Section } from "../parts/section.tsx";
import { Criteria } from "./criteria.tsx";
import { Kits } from "./kits.tsx";
import { Reference } from "./reference.tsx";
import { StudyFacts } from "./study-facts.tsx";

/** What was planned, what the instructions for use say, and what was held to be the truth. */
export function StudyAndKit({ report }: SectionProps) {
  const { study: words, grammar } = report.words;
  const { study, kits } = report.evaluation;
  const tested = grammar.listed(kits.map(({ title }) => title));
  const analytes = study.analytes.map((analyte) => analyte.title);
  const comparison = study.analytes.every(isComparator);
  const { reference } = comparison ? report.words.terms.agreement : report.words.terms.accuracy;
  return (
    <Section report={report} id="study">
      <p>{words.lead(tested, kits.length, reference, grammar.listed(analytes), study.sites.length)}</p>
      <Kits report={report} />
      <h3>{words.studyHeading}</h3>
      <StudyFacts report={report} />
      <h3>{words.referenceHeading(reference)}</h3>
      <Reference report={report} />
      <h3>{words.criteriaHeading}</h3>
      <Criteria report={report} />
      <h3>{words.deviationsHeading}</h3>
      {study.deviations.length === 0 ? (
        <p>{words.noDeviations}</p>
      ) : (
        <ul>
          {study.deviations.map((deviation) => (
            <li key={deviation}>{deviation}</li>
          ))}
        </ul>
      )}
    </Section>
  );
}
