import { allDigits, numberText } from "../../methods/number-text.ts";
import { isEstimate } from "../../methods/value-rows.ts";
import type { ViewProps } from "../view.ts";

interface Props extends Pick<ViewProps, "words"> {
  readonly value: unknown;
  /** Numbers with all their digits. */
  readonly exact?: boolean;
}

/** Items of a list that are written out. */
const MOST_ITEMS = 40;

/** A single value of a finding: number, word, estimate or a list of them. */
export function Plain({ value, words, exact = false }: Props) {
  const { methods, forms } = words;
  if (value === null || value === undefined) return <span class="absent">{methods.absent}</span>;
  if (typeof value === "number") return <>{exact ? allDigits(value) : numberText(value)}</>;
  if (typeof value === "boolean") return <>{methods.truth(value)}</>;
  if (isEstimate(value)) return <Plain value={value.value} words={words} exact={exact} />;
  if (!Array.isArray(value)) return <>{forms.choices[String(value)] ?? String(value)}</>;
  const shown = value
    .slice(0, MOST_ITEMS)
    .map((item) => (typeof item === "number" ? numberText(item) : String(item)));
  const more = value.length - shown.length;
  return (
    <>
      {value.length === 0 ? forms.none : shown.join("; ")}
      {more > 0 && <span class="further"> {methods.more(more)}</span>}
    </>
  );
}
