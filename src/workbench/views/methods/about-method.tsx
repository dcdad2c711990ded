import type { Method } from "../../../core/method.ts";
import { type Source, sources } from "../../../methods/sources.ts";
import { Facts } from "../../../report/parts/facts.tsx";
import type { ViewProps } from "../view.ts";

const known: Readonly<Record<string, Source>> = sources;

/** A source by its key; one that is no publication stands for itself. */
export function sourceOf(key: string): Source {
  return known[key] ?? { citation: key, seen: true };
}

interface Props extends Pick<ViewProps, "words"> {
  readonly method: Method;
}

/** What is known of a method: its formula, when it behaves badly, and where it comes from. */
export function AboutMethod({ method, words }: Props) {
  const { methods: said } = words.inReport;
  return (
    <aside class="method-about" aria-label={words.methods.about}>
      <h2>{words.methods.about}</h2>
      <Facts
        items={[
          [
            said.formula,
            <span key="formula" class="formula">
              {method.formula}
            </span>,
          ],
          [said.caution, words.inReport.grammar.sentence(method.caution)],
          [
            said.sources,
            <ul key="sources">
              {method.sources.map(sourceOf).map(({ citation, seen }) => (
                <li key={citation}>
                  {citation}
                  {!seen && <span class="place"> {said.memory}</span>}
                </li>
              ))}
            </ul>,
          ],
        ]}
      />
      <p class="place">
        <code>{method.id}</code>, {said.version(method.version)}
      </p>
    </aside>
  );
}
