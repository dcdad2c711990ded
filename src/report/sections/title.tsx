import type { Report, SectionProps } from "../context.ts";

/** What was studied, how large the study was, and whether its data are final. */
export function Title({ report }: SectionProps) {
  const { page, codes } = report.words;
  const { study, exploration } = report.evaluation;
  return (
    <header class="title">
      <p class="over">
        {page.kind} <span aria-hidden="true">·</span> {codes.status[study.status]}
        {exploration === null ? null : (
          <>
            {" "}
            <span aria-hidden="true">·</span> {report.words.exploration.kind}
          </>
        )}
      </p>
      <h1>{study.title}</h1>
      <p class="sub">{about(report).join(" · ")}</p>
    </header>
  );
}

function about(report: Report): string[] {
  const { page } = report.words;
  const { study, kits, participants } = report.evaluation;
  const kit = report.words.grammar.listed(kits.map(({ title }) => title));
  return [
    page.kit(kit, participants.lots.length, report.words.grammar.listed(participants.lots)),
    page.enrolled(participants.enrolled),
    ...(participants.devices > 0 ? [page.devices(participants.devices)] : []),
    ...(study.dates === undefined
      ? []
      : [page.dates(page.date(study.dates.first), page.date(study.dates.last))]),
    ...(study.protocol === undefined ? [] : [page.protocol(study.protocol.version)]),
  ];
}
