import type { ComponentChildren } from "preact";

interface Props<Option extends string> {
  readonly label: string;
  readonly value: Option | "";
  readonly options: readonly Option[];
  readonly word: (option: Option) => string;
  readonly choose: (option: Option) => void;
  /** Stands first where nothing is chosen yet, or where nothing may be chosen. */
  readonly blank?: string;
  readonly clear?: () => void;
  readonly children?: ComponentChildren;
}

/** A labelled choice that is taken over at once. */
export function Chosen<Option extends string>(props: Props<Option>) {
  const { label, value, options, word, choose, blank, clear, children } = props;
  return (
    <label class="field chosen">
      <span>
        {label} {children}
      </span>
      <select
        value={value}
        onChange={({ currentTarget }) => {
          if (currentTarget.value === "") clear?.();
          else choose(currentTarget.value as Option);
        }}
      >
        {blank !== undefined && <option value="">{blank}</option>}
        {options.map((option) => (
          <option key={option} value={option}>
            {word(option)}
          </option>
        ))}
      </select>
    </label>
  );
}
