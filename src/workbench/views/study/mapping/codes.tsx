import {
  columnsOf,
  type Mapping,
  RAPID_CODES,
  type RapidCode,
  REFERENCE_CODES,
  type ReferenceCode,
} from "../../../study/mapping/mapping.ts";
import { Chosen } from "./chosen.tsx";
import type { MappingPart } from "./mapping-page.tsx";

/** The codes found in a column of results, each with what it means. */
export function Codes({
  mapping,
  preview,
  say,
  words,
  of,
}: MappingPart & { readonly of: "rapid" | "reference" }) {
  const [name] = columnsOf(mapping, of);
  const column = preview.columns.find((one) => one.name === name);
  const { mapping: text } = words;
  if (column === undefined || name === undefined) return null;
  const options: readonly (RapidCode | ReferenceCode)[] = of === "rapid" ? RAPID_CODES : REFERENCE_CODES;
  const mean = (code: string, meaning: RapidCode | ReferenceCode | ""): void => {
    const guesses = mapping.guessed.filter((one) => one !== `${of}:${code}`);
    const next: Mapping = { ...mapping, [of]: { ...mapping[of], [code]: meaning }, guessed: guesses };
    say(next, `${name} ${code}`);
  };
  const codes = column.values.filter((value) => Object.hasOwn(mapping[of], value.text));
  return (
    <section>
      <h2>{text.codesHeading(name)}</h2>
      <div class="form-fields">
        {codes.map((value) => (
          <Chosen
            key={value.text}
            label={text.code(value.text, value.count)}
            value={mapping[of][value.text] ?? ""}
            options={options}
            word={(code) => text.codes[code]}
            choose={(code) => mean(value.text, code)}
            blank={text.choose}
            clear={() => mean(value.text, "")}
          >
            {mapping.guessed.includes(`${of}:${value.text}`) && <span class="guess">{text.guess}</span>}
          </Chosen>
        ))}
      </div>
      {column.empty > 0 && <p class="how">{text.emptyCells(column.empty)}</p>}
    </section>
  );
}
