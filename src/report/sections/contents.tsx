import type { SectionProps } from "../context.ts";

/** One slim line that leads to every section of the evidence. */
export function Contents({ report }: SectionProps) {
  const { page } = report.words;
  return (
    <nav class="contents" aria-label={page.contents}>
      <ol>
        {report.contents.map(({ id, number, title }) => (
          <li key={id}>
            <a href={`#${id}`}>
              <span class="number">{number}</span> {title}
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
