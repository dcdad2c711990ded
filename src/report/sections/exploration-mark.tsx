import type { SectionProps } from "../context.ts";
import { changeLines } from "../exploration-lines.ts";

/** On the first page of what is not the study's stated plan: what differs, planned and explored. */
export function ExplorationMark({ report }: SectionProps) {
  const { evaluation, words } = report;
  const { exploration, study } = evaluation;
  if (exploration === null) return null;
  const some = exploration.changes.some(({ path }) => path.startsWith("subset."));
  return (
    <section class="care" id="exploration" aria-labelledby="exploration-heading">
      <h2 id="exploration-heading">{words.exploration.heading}</h2>
      <p>{words.exploration.lead}</p>
      <ul>
        {changeLines(study, exploration, words).map(({ path, what, planned, explored }) => (
          <li key={path}>{words.exploration.change(what, planned, explored)}</li>
        ))}
      </ul>
      {some ? <p>{words.exploration.wholeStudy}</p> : null}
    </section>
  );
}
