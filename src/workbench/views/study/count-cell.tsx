interface Props {
  readonly name: string;
  readonly label: string;
  /** Whether the rapid result agrees with the reference in this cell. */
  readonly right: boolean;
  readonly positive?: boolean;
}

const MOST = 10_000_000;

/** One of the four cells, to type a count into. */
export function CountCell({ name, label, right, positive = false }: Props) {
  const kinds = ["fig-one-of-four", right ? "fig-right" : "fig-wrong", positive ? "fig-positive" : ""];
  return (
    <td class={kinds.join(" ").trim()}>
      <input
        type="number"
        name={name}
        aria-label={label}
        min={0}
        max={MOST}
        step={1}
        required
        inputMode="numeric"
        autocomplete="off"
      />
      <span aria-hidden="true">{label}</span>
    </td>
  );
}
