import { hasLines } from "../../records/kit.ts";
import type { SectionProps } from "../context.ts";
import { Cassette } from "../figures/cassette.tsx";
import { isComparator } from "../names.ts";
import { Drawing } from "../parts/drawing.tsx";
import { Section } from "../parts/section.tsx";
import { Criteria } from "./criteria.tsx";
import { KitFacts } from "./kit-facts.tsx";
import { Reference } from "./reference.tsx";
import { StudyFacts } from "./study-facts.tsx";

/** What was planned, what the instructions for use say, and what was held to be the truth. */
export function StudyAndKit({ report }: SectionProps) {
  const { study: words, grammar } = report.words;
  const { study, kit } = report.evaluation;
  const analytes = study.analytes.map((analyte) => analyte.title);
  const comparison = study.analytes.every(isComparator);
  const { reference } = comparison ? report.words.terms.agreement : report.words.terms.accuracy;
  const titles = Object.fromEntries(study.analytes.map(({ id, title }) => [id, title]));
  return (
    <Section report={report} id="study">
      <p>{words.lead(kit.title, reference, grammar.listed(analytes), study.sites.length)}</p>
      <h3>{words.kitHeading}</h3>
      {hasLines(kit) ? (
        <Drawing label={words.cassetteLabel(kit.title)}>
          <Cassette kit={kit} analytes={titles} />
        </Drawing>
      ) : null}
      <KitFacts report={report} />
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
