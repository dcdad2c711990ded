import { useState } from "preact/hooks";
import { blankOf } from "./blank.ts";
import { idOf, type Of, type PartProps } from "./form.ts";

type NamedProps = PartProps & {
  readonly shape: Of<"named">;
  /** Names that other fields show. */
  readonly besides?: readonly string[];
};

/** Values under names that the user gives. */
export function NamedPart({ form, path, label, shape, value, besides = [] }: NamedProps) {
  const { forms } = form.words;
  const { Part } = form.parts;
  const [name, setName] = useState("");
  const names = Object.keys(value as object).filter((one) => !besides.includes(one));
  const bare = name.trim();
  const free = bare !== "" && !names.includes(bare) && !besides.includes(bare);
  const add = (): void => {
    if (!free) return;
    form.edit({ kind: "set", path: [...path, bare], value: blankOf(shape.item) });
    setName("");
  };
  const id = `${idOf(form, path)}-new`;
  return (
    <div class="form-list">
      {names.map((one) => (
        <div class="form-item" key={one}>
          <Part
            form={form}
            path={[...path, one]}
            label={one}
            shape={shape.item}
            value={(value as Readonly<Record<string, unknown>>)[one]}
          />
          <button
            type="button"
            class="plain"
            aria-label={forms.removeItem(one)}
            onClick={() => form.edit({ kind: "remove", path: [...path, one] })}
          >
            {forms.remove}
          </button>
        </div>
      ))}
      <div class="form-new">
        <label for={id}>
          {label}: {forms.newName}
        </label>
        <input
          id={id}
          type="text"
          autocomplete="off"
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
          onKeyDown={(event) => event.key === "Enter" && add()}
        />
        <button type="button" disabled={!free} onClick={add}>
          {forms.addNamed}
        </button>
      </div>
    </div>
  );
}
