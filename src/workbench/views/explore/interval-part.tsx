import { STUDY_INTERVALS } from "../../../core/interval-names.ts";
import { Chosen } from "./chosen.tsx";
import type { PartProps } from "./part.ts";

const LEVELS = [0.8, 0.9, 0.95, 0.98, 0.99, 0.999];

/** Method and level of every interval. */
export function IntervalPart(props: PartProps) {
  const { choices } = props.looking;
  const { interval: own } = props.words.explore;
  const method = choices.find(({ path }) => path === "interval.method");
  const level = choices.find(({ path }) => path === "interval.level");
  if (method === undefined || level === undefined) return null;
  const levels = [...new Set([...LEVELS, level.planned as number, level.now as number])];
  return (
    <>
      <Chosen {...props} label={own.method} choice={method} options={STUDY_INTERVALS} />
      <Chosen
        {...props}
        label={own.level}
        choice={level}
        options={levels.sort((one, other) => one - other)}
      />
    </>
  );
}
