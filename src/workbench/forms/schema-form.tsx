import { useMemo } from "preact/hooks";
import type { GenericSchema } from "valibot";
import type { Words } from "../words/en.ts";
import type { Edit } from "./edit.ts";
import { type Fault, faultsOf } from "./faults.ts";
import { Folded } from "./folded.tsx";
import type { Form } from "./form.ts";
import { Content, PARTS } from "./part.tsx";
import { FaultLine } from "./scalar-field.tsx";
import { shapeOf } from "./shape.ts";

interface Props {
  /** Begins the ids of the fields; another for each form on the page. */
  readonly id: string;
  readonly schema: GenericSchema;
  readonly value: unknown;
  readonly words: Words;
  /**
   * Takes each edit: `edited(value, edit)` gives the new value, `editedYaml(text, edit)` the new text of a file.
   * `typing`: one of a run in the same field, all one step for undo.
   */
  readonly onEdit: (edit: Edit, typing: boolean) => void;
  /** Faults found elsewhere, to be shown at their fields beside the schema's own. */
  readonly faults?: readonly Fault[];
  /** Whether the larger parts are folded, each with a line of what stands in it. For long files. */
  readonly folded?: boolean;
  /** Whether no fault is shown yet: in a form just begun, all empty places would be. */
  readonly quiet?: boolean;
}

const NONE: readonly Fault[] = [];

/** A form made from a schema: names, help, choices, limits and faults are the schema's. */
export function SchemaForm({
  id,
  schema,
  value,
  words,
  onEdit,
  faults = NONE,
  folded = false,
  quiet = false,
}: Props) {
  const shape = shapeOf(schema);
  const found = useMemo(() => faultsOf(schema, value), [schema, value]);
  const form: Form = {
    id,
    words,
    faults: quiet ? NONE : [...found, ...faults],
    edit: (edit, typing = false) => onEdit(edit, typing),
    parts: PARTS,
  };
  const whole = { form, path: [], label: "", shape, value };
  return (
    <div class="form">
      <FaultLine form={form} path={[]} />
      {folded && shape.kind === "fields" ? <Folded {...whole} shape={shape} /> : <Content {...whole} />}
    </div>
  );
}
