import type { Chosen as Value } from "../../../evaluation/schema/exploration.ts";
import { chosenInWords } from "../../../report/exploration-lines.ts";
import type { LookedAt } from "../../explore/looked-at.ts";
import { change, type PartProps } from "./part.ts";

/** One choice of several; the plan's own is marked. */
export function Chosen(props: PartProps & { label: string; choice: LookedAt; options: readonly Value[] }) {
  const { label, choice, options, looking, words } = props;
  const named = (value: Value) => {
    const text = chosenInWords(looking.planned, choice.subject, value, words.inReport);
    return value === choice.planned && choice.now !== choice.planned ? words.explore.planned(text) : text;
  };
  return (
    <label class="field">
      <span>{label}</span>
      <select
        value={String(choice.now)}
        onChange={(event) => {
          const found = options.find((option) => String(option) === event.currentTarget.value);
          if (found !== undefined) change(props, choice, found);
        }}
      >
        {options.map((option) => (
          <option key={String(option)} value={String(option)}>
            {named(option)}
          </option>
        ))}
      </select>
    </label>
  );
}
