import type { PoolSectionProps } from "../context.ts";
import { peopleOf } from "../names.ts";

/** What is pooled, of how many studies and people. */
export function Title({ report }: PoolSectionProps) {
  const { pool: words } = report.words;
  const { file, studies, leftOut } = report.pooling;
  return (
    <header class="title">
      <p class="over">
        {words.kind} <span aria-hidden="true">·</span> {file.id}
      </p>
      <h1>{file.title}</h1>
      <p class="sub">{words.about(studies.length, peopleOf(report.pooling), leftOut.length).join(" · ")}</p>
    </header>
  );
}
