import { withCodes } from "../../../study/mapping/guess.ts";
import {
  COUNT_MEANINGS,
  columnsOf,
  type Mapping,
  type Meaning,
  RESULT_MEANINGS,
} from "../../../study/mapping/mapping.ts";
import type { TablePreview } from "../../../study/mapping/table-preview.ts";
import { Scrolling } from "../../scrolling.tsx";
import { Chosen } from "./chosen.tsx";
import type { MappingPart } from "./mapping-page.tsx";

/** The first rows; above each column what it is. */
export function Columns({ mapping, preview, say, words }: MappingPart) {
  const { mapping: text } = words;
  const options: readonly Meaning[] = mapping.shape === "results" ? RESULT_MEANINGS : COUNT_MEANINGS;
  const names = preview.columns.map(({ name }) => name);
  return (
    <section>
      <Scrolling label={text.preview}>
        <table class="mapping-rows">
          <thead>
            <tr>
              {names.map((name) => (
                <th scope="col" key={name}>
                  <Chosen
                    label={text.meaningOf(name)}
                    value={mapping.meanings[name] ?? ""}
                    options={options}
                    word={(meaning) => text.meanings[meaning]}
                    choose={(meaning) => say(meant(mapping, preview, name, meaning), name)}
                    blank={text.leaveOut}
                    clear={() => say(meant(mapping, preview, name, ""), name)}
                  >
                    {mapping.guessed.includes(name) && <span class="guess">{text.guess}</span>}
                  </Chosen>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {preview.rows.map((row, place) => (
              <tr key={place}>
                {names.map((name, column) => (
                  <td key={name} class={mapping.meanings[name] ? "" : "mapping-out"}>
                    {row[column]}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolling>
      <p class="how">
        {text.rows(preview.count)}{" "}
        {mapping.shape === "results" && columnsOf(mapping, "person").length === 0 && text.eachRow}
      </p>
    </section>
  );
}

/** A meaning stands over one column: given to another it leaves the first, groups apart. */
function meant(mapping: Mapping, preview: TablePreview, column: string, meaning: Meaning | ""): Mapping {
  const others = Object.entries(mapping.meanings).map(([name, of]) => [
    name,
    of === meaning && meaning !== "group" ? "" : of,
  ]);
  const meanings = { ...Object.fromEntries(others), [column]: meaning };
  const next = { ...mapping, meanings, guessed: mapping.guessed.filter((name) => name !== column) };
  if (mapping.shape === "counts") return next;
  return withCodes(withCodes(next, preview, "rapid"), preview, "reference");
}
