import type { JSX } from "preact";

interface FieldProps {
  readonly name: string;
  readonly label: string;
  readonly input: JSX.InputHTMLAttributes;
}

/** A labelled input. */
export function Field({ name, label, input }: FieldProps) {
  return (
    <label class="field">
      <span>{label}</span>
      <input name={name} autocomplete="off" {...input} />
    </label>
  );
}

interface ChoiceProps<Option extends string> {
  readonly name: string;
  readonly label: string;
  readonly options: readonly Option[];
  readonly words: Readonly<Record<Option, string>>;
  /** Stands first where the choice must be made by the user; absent: the first option does. */
  readonly blank?: string;
}

/** A labelled choice of one of several. */
export function Choice<Option extends string>({ name, label, options, words, blank }: ChoiceProps<Option>) {
  return (
    <label class="field">
      <span>{label}</span>
      <select name={name} required>
        {blank !== undefined && <option value="">{blank}</option>}
        {options.map((option) => (
          <option key={option} value={option}>
            {words[option]}
          </option>
        ))}
      </select>
    </label>
  );
}
