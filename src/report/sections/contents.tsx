import type { Placed } from "../contents.ts";
import type { Shared } from "../context.ts";

interface Props {
  readonly report: Pick<Shared, "words"> & { readonly contents: readonly Placed<string>[] };
}

/** One slim line that leads to every section of the evidence. */
export function Contents({ report }: Props) {
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
