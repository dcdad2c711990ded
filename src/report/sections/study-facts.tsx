import type { Report, SectionProps } from "../context.ts";
import { worded } from "../names.ts";
import { Facts } from "../parts/facts.tsx";

/** What the study file states of the study. */
export function StudyFacts({ report }: SectionProps) {
  const { study: words, codes, page, grammar } = report.words;
  const { facts } = words;
  const { study, participants } = report.evaluation;
  return (
    <Facts
      items={[
        [facts.id, study.id],
        [facts.protocol, study.protocol === undefined ? null : words.version(study.protocol.version)],
        [facts.registration, study.protocol?.registration],
        [
          facts.enrolment,
          study.dates === undefined
            ? null
            : page.dates(page.date(study.dates.first), page.date(study.dates.last)),
        ],
        [facts.sites, study.sites.map((site) => words.titled(site.title, site.id)).join("; ")],
        [
          facts.arms,
          study.arms
            .map((arm) => words.arm(arm.title, arm.id, worded(codes.selections, arm.selection)))
            .join("; "),
        ],
        [facts.lots, grammar.listed(participants.lots)],
        [facts.readers, readersText(report)],
        [facts.treatment, treatmentText(report)],
        [facts.shape, codes.shapes[study.records.shape]],
        [facts.funding, study.funding ?? page.notStated],
      ]}
    />
  );
}

/** Whose results count. */
export function readersText(report: Report): string {
  const { codes, general } = report.words;
  const { readers } = report.evaluation.study;
  if (readers.use === "primary" && readers.primary !== undefined) {
    return `${codes.readerUse.primary}: ${general.reader(readers.primary)}`;
  }
  return readers.use === "consensus"
    ? `${codes.readerUse.consensus}; ${codes.disagreement[readers.disagreement]}`
    : codes.readerUse[readers.use];
}

function treatmentText(report: Report): string {
  const { study: words, codes } = report.words;
  const { treatment, interval } = report.evaluation.study;
  return [
    words.treatmentInvalid(codes.invalidTreatments[treatment.invalid]),
    words.treatmentWindow(codes.windowTreatments[treatment.outside_window]),
    codes.repeats[treatment.repeat],
    words.interval(interval.level, codes.intervals[interval.method]),
  ].join("; ");
}
