import type { Report } from "./context.ts";
import { shortHash } from "./formats.ts";
import { PageFrame } from "./html-page.tsx";
import { Answer } from "./sections/answer.tsx";
import { Care } from "./sections/care.tsx";
import { Contents } from "./sections/contents.tsx";
import { Evidence } from "./sections/evidence.tsx";
import { ExplorationMark } from "./sections/exploration-mark.tsx";
import { TenThousand } from "./sections/ten-thousand.tsx";
import { Title } from "./sections/title.tsx";

/** The body of the page: the answer first, then what it means, then what to mind, then the evidence. */
export function Page({ report }: { report: Report }) {
  const { page } = report.words;
  return (
    <PageFrame skip={page.skip} foot={`${page.footer} ${hashes(report)}`}>
      <Title report={report} />
      <ExplorationMark report={report} />
      <Answer report={report} />
      <TenThousand report={report} />
      <Care report={report} />
      <Contents report={report} />
      <Evidence report={report} />
    </PageFrame>
  );
}

function hashes({ evaluation, words }: Report): string {
  const { provenance, software, study } = evaluation;
  return words.page.hashes(
    shortHash(provenance.dataSha256),
    shortHash(provenance.planSha256),
    software,
    study.seed,
  );
}
