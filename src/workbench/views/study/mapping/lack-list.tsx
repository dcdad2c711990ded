import type { Lack } from "../../../study/mapping/lacking.ts";
import type { Words } from "../../../words/en.ts";

interface Props {
  readonly lacks: readonly Lack[];
  /** Whether the study was asked for: the list is then said aloud. */
  readonly asked: boolean;
  readonly words: Words;
}

/** What must still be said before a study can be made. */
export function LackList({ lacks, asked, words }: Props) {
  const said = lacks.map((lack) => textOf(lack, words));
  return (
    <section class="lacking" role={asked ? "alert" : "status"}>
      <h3>{words.mapping.lacking}</h3>
      <ul>
        {said.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}

function textOf(lack: Lack, { mapping }: Words): string {
  const { lacks, meanings } = mapping;
  switch (lack.kind) {
    case "column":
      return lacks.column(meanings[lack.meaning]);
    case "codes":
      return lacks.codes(lack.codes.join(", "));
    case "too_many":
      return lacks.tooMany(lack.column);
    case "names":
      return lacks.names(lack.texts.join(", "));
    case "window":
      return lacks.window;
    case "about":
      return lacks.about(lack.fields);
  }
}
