import { shortHash } from "../formats.ts";
import { PageFrame } from "../html-page.tsx";
import { Contents } from "../sections/contents.tsx";
import type { AlgorithmReport } from "./context.ts";
import { Answer } from "./sections/answer.tsx";
import { Care } from "./sections/care.tsx";
import { Evidence } from "./sections/evidence.tsx";
import { People } from "./sections/people.tsx";
import { Title } from "./sections/title.tsx";

/** The body of an algorithm's page: the answer first, what it does to people, what to mind, then the reckoning. */
export function AlgorithmPage({ report }: { report: AlgorithmReport }) {
  const { page, algorithm } = report.words;
  const { provenance, software, file } = report.algorithms;
  return (
    <PageFrame
      skip={algorithm.skip}
      foot={`${page.footer} ${algorithm.hashes(shortHash(provenance.fileSha256), software, file.seed)}`}
    >
      <Title report={report} />
      <Answer report={report} />
      <People report={report} />
      <Care report={report} />
      <Contents report={report} />
      <Evidence report={report} />
    </PageFrame>
  );
}
