import type { Evaluation } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import { subjectTitle } from "../names.ts";
import type { AlarmFacts } from "../words/en/alarms.ts";

/** What the records themselves show to be a threat to the figures, gravest first, in plain words. */
export function Care({ report }: SectionProps) {
  const { care, alarms: table } = report.words;
  const order = Object.keys(table);
  const rank = ({ code }: Alarm) => (order.includes(code) ? order.indexOf(code) : order.length);
  const alarms = [...report.evaluation.alarms].sort((one, other) => rank(one) - rank(other));
  return (
    <section id="care" class="care" aria-labelledby="care-heading">
      <h2 id="care-heading">{care.heading}</h2>
      {alarms.length === 0 ? (
        <p>{care.none}</p>
      ) : (
        <ul>
          {alarms.map((alarm, place) => (
            <AlarmLine key={place} report={report} alarm={alarm} />
          ))}
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
      <b>{words.label}.</b> {words.text(facts)}
    </li>
  );
}

function factsOf(report: Report, alarm: Alarm): AlarmFacts {
  const { codes } = report.words;
  const treatment = report.evaluation.study.treatment.outside_window;
  return {
    count: alarm.count,
    total: alarm.total,
    subjects: alarm.subjects.map((subject) => subjectTitle(report, subject)),
    windowTreatment: codes.windowTreatments[treatment],
  };
}
