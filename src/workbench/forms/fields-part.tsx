import { faultsAt } from "./faults.ts";
import type { Of, PartProps } from "./form.ts";
import { labelOf } from "./labels.ts";
import { NamedPart } from "./named-part.tsx";
import { at, type Shape } from "./shape.ts";

const SCALARS = new Set<Shape["kind"]>(["text", "number", "choice", "fixed", "unknown"]);

/** The fields of a mapping: those of one line first, in columns, then the larger ones. */
export function FieldsPart(props: PartProps & { readonly shape: Of<"fields"> }) {
  const { form, path, shape, value } = props;
  const { Part } = form.parts;
  const order = shape.entries.map(([name]) => name);
  const partOf = ([name, entry]: Of<"fields">["entries"][number]) => (
    <Part
      key={name}
      form={form}
      path={[...path, name]}
      label={labelOf(name, form.words)}
      shape={entry}
      value={at(value, name)}
      order={order}
    />
  );
  const small = shape.entries.filter(([, entry]) => SCALARS.has(entry.kind));
  const large = shape.entries.filter(([, entry]) => !SCALARS.has(entry.kind));
  return (
    <>
      {small.length > 0 && <div class="form-fields">{small.map(partOf)}</div>}
      {large.map(partOf)}
      {shape.rest !== null && (
        <NamedPart {...props} shape={{ ...shape, kind: "named", item: shape.rest }} besides={order} />
      )}
      {shape.rest === null && <UnknownFields {...props} order={order} />}
    </>
  );
}

/** Fields that the schema does not know: named, and removed by one click. */
export function UnknownFields({ form, path, value, order = [] }: Omit<PartProps, "shape" | "label">) {
  if (typeof value !== "object" || value === null) return null;
  const names = Object.keys(value).filter((name) => !order.includes(name));
  const { forms } = form.words;
  return (
    <>
      {names
        .filter((name) => faultsAt(form.faults, [...path, name]).length > 0)
        .map((name) => (
          <p key={name} class="form-fault">
            {forms.unknownField(name)}{" "}
            <button
              type="button"
              class="plain"
              onClick={() => form.edit({ kind: "remove", path: [...path, name] })}
            >
              {forms.removeItem(name)}
            </button>
          </p>
        ))}
    </>
  );
}
