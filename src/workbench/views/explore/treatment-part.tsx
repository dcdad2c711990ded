import { INVALID_TREATMENTS, WINDOW_TREATMENTS } from "../../../evaluation/schema/parts.ts";
import { Chosen } from "./chosen.tsx";
import type { PartProps } from "./part.ts";

const OPTIONS = {
  invalid: INVALID_TREATMENTS,
  outside_window: WINDOW_TREATMENTS,
  repeat: ["first", "last", "any"],
} as const;

/** What becomes of invalid results, readings outside the window and repeated devices. Counts know the first alone. */
export function TreatmentPart(props: PartProps) {
  const { planned, choices } = props.looking;
  const kinds =
    planned.records.shape === "counts"
      ? (["invalid"] as const)
      : (["invalid", "outside_window", "repeat"] as const);
  return (
    <>
      {kinds.map((kind) => {
        const choice = choices.find(({ subject }) => subject.kind === kind);
        const label = props.words.explore.treatment[kind];
        return choice === undefined ? null : (
          <Chosen key={kind} {...props} label={label} choice={choice} options={OPTIONS[kind]} />
        );
      })}
    </>
  );
}
