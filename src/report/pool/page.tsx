import { shortHash } from "../formats.ts";
import { PageFrame } from "../html-page.tsx";
import { Contents } from "../sections/contents.tsx";
import type { PoolReport } from "./context.ts";
import { Answer } from "./sections/answer.tsx";
import { Evidence } from "./sections/evidence.tsx";
import { Title } from "./sections/title.tsx";

/** The body of the page of pooled studies: the question and its answer first, then the evidence. */
export function PoolPage({ report }: { report: PoolReport }) {
  const { page, pool } = report.words;
  const { provenance, software } = report.pooling;
  return (
    <PageFrame
      skip={pool.skip}
      foot={`${page.footer} ${pool.hashes(shortHash(provenance.fileSha256), software)}`}
    >
      <Title report={report} />
      <Answer report={report} />
      <Contents report={report} />
      <Evidence report={report} />
    </PageFrame>
  );
}
