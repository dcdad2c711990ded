import { STUDY_INTERVALS } from "../../../core/interval-names.ts";
import { SELECTIONS } from "../../../records/study.ts";
import type { TypedCounts } from "../../study/typed-counts.ts";
import type { ViewProps } from "../view.ts";
import { CountCell } from "./count-cell.tsx";
import { Choice, Field } from "./fields.tsx";
import { typedIn } from "./typed-in.ts";

const ROLES = ["reference_standard", "comparator", "imperfect"] as const;
const COUNTS = [
  ["reactive", "truePositives", "falsePositives"],
  ["nonreactive", "falseNegatives", "trueNegatives"],
] as const;

/** A blank fourfold table to type into, and what must be said about it before it can be judged. */
export function TypedTable({ store, words }: ViewProps) {
  const { typed } = words.study;
  const evaluate = (event: SubmitEvent): void => {
    event.preventDefault();
    store.actions.typeCounts(typedIn(new FormData(event.currentTarget as HTMLFormElement)));
  };
  return (
    <form class="typed" onSubmit={evaluate}>
      <h2>{typed.heading}</h2>
      <p>{typed.text}</p>
      <BlankTable words={words} />
      <About words={words} />
      <p class="buttons">
        <button type="submit">{typed.evaluate}</button>
      </p>
      <p class="how">{typed.how}</p>
    </form>
  );
}

function BlankTable({ words }: Pick<ViewProps, "words">) {
  const { typed } = words.study;
  return (
    <table class="fig-fourfold blank">
      <caption>{typed.caption}</caption>
      <thead>
        <tr>
          <td />
          <th scope="colgroup" colSpan={2} class="fig-over">
            {typed.reference}
          </th>
        </tr>
        <tr>
          <th scope="col" class="fig-over">
            {typed.rapid}
          </th>
          <th scope="col">{typed.positive}</th>
          <th scope="col">{typed.negative}</th>
        </tr>
      </thead>
      <tbody>
        {COUNTS.map(([row, positive, negative]) => (
          <tr key={row} class={`fig-${row}`}>
            <th scope="row">{typed[row]}</th>
            <CountCell name={positive} label={typed.cells[positive]} right={row === "reactive"} positive />
            <CountCell name={negative} label={typed.cells[negative]} right={row === "nonreactive"} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function About({ words }: Pick<ViewProps, "words">) {
  const { typed } = words.study;
  const { codes } = words.inReport;
  const text = (name: keyof TypedCounts, label: string, given: string) => (
    <Field name={name} label={label} input={{ type: "text", required: true, defaultValue: given }} />
  );
  const share = { type: "number", min: 0, max: 100, step: "any", placeholder: typed.optional };
  return (
    <div class="about">
      {text("kit", typed.kit, typed.kitGiven)}
      {text("condition", typed.condition, typed.conditionGiven)}
      {text("specimen", typed.specimen, typed.specimenGiven)}
      {text("reference", typed.referenceTest, typed.referenceGiven)}
      <Choice name="role" label={typed.role} options={ROLES} words={codes.roles} blank={typed.choose} />
      <Choice
        name="selection"
        label={typed.selection}
        options={SELECTIONS}
        words={codes.selections}
        blank={typed.choose}
      />
      <Field name="sensitivityAtLeast" label={typed.sensitivity} input={share} />
      <Field name="specificityAtLeast" label={typed.specificity} input={share} />
      <Choice name="method" label={typed.method} options={STUDY_INTERVALS} words={codes.intervals} />
      <Field
        name="level"
        label={typed.level}
        input={{ type: "number", min: 50.1, max: 99.99, step: "any", required: true, defaultValue: "95" }}
      />
    </div>
  );
}
