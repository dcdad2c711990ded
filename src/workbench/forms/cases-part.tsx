import { blankOf } from "./blank.ts";
import { idOf, type Of, type PartProps, setField } from "./form.ts";
import { choiceOf, labelOf } from "./labels.ts";
import { at, type Case } from "./shape.ts";

/** A value of one of several shapes: which, and then its fields. What both shapes have stays. */
export function CasesPart(props: PartProps & { readonly shape: Of<"cases"> }) {
  const { form, path, label, shape, value } = props;
  const { forms } = form.words;
  const { Content } = form.parts;
  const chosen = shape.cases.findIndex(({ holds }) => holds(value));
  const id = `${idOf(form, path)}-kind`;
  const choose = (place: number): void => {
    const next = shape.cases[place];
    if (next !== undefined) setField(props, begunAs(next, value));
  };
  const inside = shape.cases[chosen]?.shape;
  return (
    <>
      <div class="form-field">
        <label for={id}>{forms.kindOf(label)}</label>
        <select
          id={id}
          value={chosen === -1 ? "" : String(chosen)}
          onChange={({ currentTarget }) => currentTarget.value !== "" && choose(Number(currentTarget.value))}
        >
          {chosen === -1 && <option value="">{forms.choose}</option>}
          {shape.cases.map((one, place) => (
            <option key={one.word} value={String(place)}>
              {wordOf(one, props)}
            </option>
          ))}
        </select>
      </div>
      {inside !== undefined && <Content {...props} shape={inside} />}
    </>
  );
}

function wordOf({ word, shape }: Case, { form }: PartProps): string {
  if (shape.kind !== "fields" || !word.includes(", ")) return choiceOf(word, form.words);
  return shape.entries.map(([name]) => labelOf(name, form.words)).join(", ");
}

/** A blank of the case with what the value has under the same names. */
function begunAs({ shape }: Case, value: unknown): unknown {
  const blank = blankOf(shape);
  if (shape.kind !== "fields") return blank;
  const kept = shape.entries.flatMap(([name, entry]) =>
    entry.kind === "fixed" || at(value, name) === undefined ? [] : [[name, at(value, name)]],
  );
  return { ...(blank as object), ...Object.fromEntries(kept) };
}
