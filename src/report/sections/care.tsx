import type { Evaluation } from "../../evaluation/document.ts";
import { nameOf } from "../answer-facts.ts";
import type { SectionId } from "../contents.ts";
import { placeOf, type Report, type SectionProps } from "../context.ts";
import { subjectTitle } from "../names.ts";
import { type Warned, warningLines } from "../reference-warning-lines.ts";
import type { AlarmFacts } from "../words/en/alarms.ts";

/**
 * What is a threat to the figures, in plain words: verdicts that hang on the reference, what the records show,
 * gravest first, and models that can't be relied on.
 */
export function Care({ report }: SectionProps) {
  const { care, alarms: table } = report.words;
  const order = Object.keys(table);
  const rank = ({ code }: Alarm) => (order.includes(code) ? order.indexOf(code) : order.length);
  const alarms = [...report.evaluation.alarms].sort((one, other) => rank(one) - rank(other));
  const warnings = warningLines(report);
  const told = (place: "first" | "last") =>
    warnings
      .filter((one) => one.place === place)
      .map((one) => <WarningLine key={one.text} report={report} of={one} />);
  return (
    <section id="care" class="care" aria-labelledby="care-heading">
      <h2 id="care-heading">{care.heading}</h2>
      {alarms.length + warnings.length === 0 ? (
        <p>{care.none}</p>
      ) : (
        <ul>
          {told("first")}
          {alarms.map((alarm, place) => (
            <AlarmLine key={place} report={report} alarm={alarm} />
          ))}
          {told("last")}
        </ul>
      )}
    </section>
  );
}

type Alarm = Evaluation["alarms"][number];

function AlarmLine({ report, alarm }: { report: Report; alarm: Alarm }) {
  const { alarms: table, care } = report.words;
  const facts = factsOf(report, alarm);
  const known: Readonly<Record<string, (typeof table)[keyof typeof table]>> = table;
  const words = Object.hasOwn(known, alarm.code) ? known[alarm.code] : undefined;
  if (words === undefined) return <li>{care.unknown(alarm.code, facts)}</li>;
  return (
    <li>
      <b>{words.label}.</b> {words.text(facts)} <Further report={report} code={alarm.code} />
    </li>
  );
}

function WarningLine({ report, of }: { report: Report; of: Warned }) {
  return (
    <li>
      <b>{of.label}.</b> {of.text} <Place report={report} section={of.section} />
    </li>
  );
}

/** Where the evidence behind an alarm stands. */
const EVIDENCE: Readonly<Record<string, SectionId>> = {
  discrepant_only_retested: "reference",
  criterion_after_first_result: "study",
  criterion_undated: "study",
  partial_verification: "flow",
  second_reader_copied: "readers",
  enriched_sample: "participants",
  lot_confounded_with_site: "subgroups",
  outside_window: "time",
  wrong_typed_results: "typed",
  rows_set_aside: "queries",
};

function Further({ report, code }: { report: Report; code: string }) {
  const section = Object.hasOwn(EVIDENCE, code) ? EVIDENCE[code] : undefined;
  return section === undefined ? null : <Place report={report} section={section} />;
}

function Place({ report, section }: { report: Report; section: SectionId }) {
  const place = placeOf(report, section);
  if (place === null) return null;
  return (
    <a class="further" href={`#${place.id}`}>
      {report.words.page.section(String(place.number))}
    </a>
  );
}

/** A criterion by what it asks for. */
function criterionName(report: Report, code: string): string | null {
  const found = report.evaluation.answers.find((answer) => answer.criterion === code);
  return found === undefined ? null : nameOf(report, found);
}

function factsOf(report: Report, alarm: Alarm): AlarmFacts {
  const { codes } = report.words;
  const treatment = report.evaluation.study.treatment.outside_window;
  return {
    count: alarm.count,
    total: alarm.total,
    subjects: alarm.subjects.map(
      (subject) => criterionName(report, subject) ?? subjectTitle(report, subject),
    ),
    windowTreatment: codes.windowTreatments[treatment],
  };
}
