import { groupInWords, subjectInWords } from "../../../report/exploration-lines.ts";
import { withPeople } from "../../explore/looked-at.ts";
import { workOf } from "../../state/state.ts";
import type { PartProps } from "./part.ts";

/** Everybody, or the people of one site, one way of coming in, one specimen type, one group of a stratum. */
export function PeoplePart({ store, words, shown, looking }: PartProps) {
  const { people: own } = words.explore;
  const kinds = shown.groups.flatMap(({ path, groups }) => {
    const choice = looking.choices.find((one) => one.path === path);
    return choice === undefined ? [] : [{ choice, groups }];
  });
  if (kinds.length === 0) return <p>{own.none}</p>;
  const now = kinds.find(({ choice }) => choice.now !== null)?.choice;
  const look = (chosen: string) => {
    const people = chosen === "" ? null : (JSON.parse(chosen) as { path: string; value: string });
    store.actions.explore(own.title, withPeople(workOf(store.get()).explored, people));
  };
  return (
    <label class="field">
      <span>{own.only}</span>
      <select
        value={now === undefined ? "" : asOption(now.path, String(now.now))}
        onChange={(event) => look(event.currentTarget.value)}
      >
        <option value="">{own.everybody}</option>
        {kinds.map(({ choice, groups }) => (
          <optgroup key={choice.path} label={subjectInWords(looking.planned, choice.subject, words.inReport)}>
            {groups.map((group) => (
              <option key={group} value={asOption(choice.path, group)}>
                {groupInWords(looking.planned, choice.subject, group, words.inReport)}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </label>
  );
}

const asOption = (path: string, value: string) => JSON.stringify({ path, value });
