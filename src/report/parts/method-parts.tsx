import type { MethodText } from "../../evaluation/catalogue.ts";
import type { Shared } from "../context.ts";
import { Facts } from "./facts.tsx";

interface Props {
  readonly report: Shared;
  readonly used: readonly { readonly id: string; readonly version: number }[];
}

/** Each method used, with its question, formula, limits and sources, in the catalogue's order. */
export function MethodParts({ report, used }: Props) {
  const { methods: words } = report.words;
  const versions = new Map(used.map(({ id, version }) => [id, version]));
  const texts = report.methodTexts.filter(({ id }) => versions.has(id));
  return (
    <>
      {texts.length === 0 ? null : <h3>{words.listHeading}</h3>}
      {texts.map((text) => (
        <MethodPart key={text.id} report={report} text={text} version={versions.get(text.id) ?? 1} />
      ))}
    </>
  );
}

function MethodPart({ report, text, version }: { report: Shared; text: MethodText; version: number }) {
  const { methods: words } = report.words;
  return (
    <div class="method">
      <h4>
        {text.title}{" "}
        <span class="place">
          {text.id}, {words.version(version)}
        </span>
      </h4>
      <p>{text.question}</p>
      <Facts
        items={[
          [
            words.formula,
            <span key="formula" class="formula">
              {text.formula}
            </span>,
          ],
          [words.caution, text.caution],
          [
            words.sources,
            <ul key="sources">
              {text.sources.map((source) => (
                <li key={source.citation}>
                  {source.citation}
                  {source.seen ? null : <span class="memory"> ({words.memory})</span>}
                </li>
              ))}
            </ul>,
          ],
        ]}
      />
    </div>
  );
}
