import { change, type PartProps } from "./part.ts";

/** Which of the study's strata are shown as subgroups. */
export function StrataPart(props: PartProps) {
  const choices = props.looking.choices.flatMap((choice) =>
    choice.subject.kind === "stratum" ? [{ choice, title: choice.subject.stratum.title }] : [],
  );
  if (choices.length === 0) return <p>{props.words.explore.strata.none}</p>;
  return (
    <>
      {choices.map(({ choice, title }) => (
        <label key={choice.path} class="tick">
          <input
            type="checkbox"
            checked={choice.now === true}
            onChange={(event) => change(props, choice, event.currentTarget.checked)}
          />{" "}
          {title}
        </label>
      ))}
    </>
  );
}
