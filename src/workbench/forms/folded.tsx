import { useEffect, useState } from "preact/hooks";
import { faultsWithin } from "./faults.ts";
import { UnknownFields } from "./fields-part.tsx";
import { idOf, type Of, type PartProps } from "./form.ts";
import { gistOf } from "./gist.ts";
import { labelOf } from "./labels.ts";
import { Whole } from "./part.tsx";
import { isScalar, ScalarField } from "./scalar-field.tsx";
import { at } from "./shape.ts";

/** A long mapping: its fields of one line, and then each larger part folded, with a line of what stands in it. */
export function Folded({ form, path, shape, value }: PartProps & { readonly shape: Of<"fields"> }) {
  const order = shape.entries.map(([name]) => name);
  const parts = shape.entries.map(([name, entry]) => ({
    form,
    path: [...path, name],
    label: labelOf(name, form.words),
    shape: entry,
    value: at(value, name),
    order,
  }));
  return (
    <>
      <div class="form-fields">
        {parts.flatMap((part) => (isScalar(part) ? [<ScalarField key={part.label} {...part} />] : []))}
      </div>
      {parts.flatMap((part) => (isScalar(part) ? [] : [<Fold key={part.label} {...part} />]))}
      <UnknownFields form={form} path={path} value={value} order={order} />
    </>
  );
}

/** Opens by itself where a fault comes up in it; it never closes by itself. */
function Fold(props: PartProps) {
  const { form, path, label, value } = props;
  const faults = faultsWithin(form.faults, path);
  const [open, setOpen] = useState(faults > 0);
  useEffect(() => {
    if (faults > 0) setOpen(true);
  }, [faults > 0]);
  return (
    <details
      class="form-fold"
      id={idOf(form, path)}
      open={open}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <span class="form-fold-name">{label}</span> <span class="form-gist">{gistOf(value, form.words)}</span>
        {faults > 0 && <span class="form-fault"> {form.words.forms.faults(faults)}</span>}
      </summary>
      {open && (
        <div class="form-fold-content">
          <Whole {...props} />
        </div>
      )}
    </details>
  );
}
