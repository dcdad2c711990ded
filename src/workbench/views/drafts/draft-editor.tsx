import { useMemo, useState } from "preact/hooks";
import type { GenericSchema } from "valibot";
import { AlgorithmFileSchema } from "../../../records/algorithm/algorithm-schema.ts";
import { KitSchema } from "../../../records/kit.ts";
import type { RowIssue } from "../../../records/model.ts";
import { PlanSchema } from "../../../records/plan/plan.ts";
import { type DraftKind, type DraftPart, kitNameOf, type PageDraft } from "../../drafts/page-draft.ts";
import { valueOfYaml } from "../../forms/edited-yaml.ts";
import type { Fault } from "../../forms/faults.ts";
import { SchemaForm } from "../../forms/schema-form.tsx";
import { at } from "../../forms/shape.ts";
import { useTyping } from "../../forms/use-typing.ts";
import { useStore } from "../use-store.ts";
import type { DraftProps } from "./draft-view.tsx";

const SCHEMAS: Readonly<Record<DraftKind, GenericSchema>> = {
  plan: PlanSchema,
  algorithms: AlgorithmFileSchema,
};

interface Props extends DraftProps {
  readonly draft: PageDraft;
}

/** The file, and the kit file that it names: each as a form and as text. */
export function DraftEditor({ kind, draft, store, words }: Props) {
  const kit = useMemo(() => kitNameOf(draft), [draft.file]);
  const shared = { kind, store, words };
  return (
    <section class="draft-editor" aria-label={words.drafts.edit}>
      <Edited {...shared} part="file" name={draft.name} text={draft.file} schema={SCHEMAS[kind]} />
      {kit !== null && draft.kit === null && <p class="form-fault">{words.drafts.kitMissing(kit)}</p>}
      {kit !== null && draft.kit !== null && (
        <Edited {...shared} part="kit" name={kit} text={draft.kit} schema={KitSchema} />
      )}
    </section>
  );
}

interface EditedProps extends DraftProps {
  readonly part: DraftPart;
  readonly name: string;
  readonly text: string;
  readonly schema: GenericSchema;
}

function Edited(props: EditedProps) {
  const [open, setOpen] = useState(false);
  const { kind, part, name, words } = props;
  return (
    <details
      class="file-form"
      id={`draft-${kind}-${part}`}
      open={open}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <h2>{words.forms.asForm(name)}</h2>
      </summary>
      {open && <Opened {...props} />}
    </details>
  );
}

function Opened({ kind, part, name, text, schema, store, words }: EditedProps) {
  const parsed = useMemo(() => valueOfYaml(text), [text]);
  const issues = useStore(store, ({ drafted }) => drafted[kind]?.issues ?? NONE);
  const faults = useMemo(() => otherFaults(issues, name, parsed?.value), [issues, name, parsed]);
  const { actions } = store;
  return (
    <div class="file-form-open">
      {parsed === null ? (
        <p class="form-fault">{words.forms.noForm}</p>
      ) : (
        <SchemaForm
          id={`draft-${kind}-${part}-form`}
          schema={schema}
          value={parsed.value}
          words={words}
          faults={faults}
          folded
          onEdit={(edit, typing) => actions.editDraftField(kind, part, edit, typing)}
        />
      )}
      <details class="file-text" open={parsed === null}>
        <summary>{words.forms.asText(name)}</summary>
        <DraftText
          label={words.forms.asText(name)}
          text={text}
          take={(next) => actions.editDraftText(kind, part, next)}
        />
      </details>
    </div>
  );
}

interface TextProps {
  readonly label: string;
  readonly text: string;
  readonly take: (text: string) => void;
}

function DraftText({ label, text, take }: TextProps) {
  const typing = useTyping(text, (next) => {
    take(next);
    return next;
  });
  return (
    <textarea
      aria-label={label}
      rows={Math.min(40, text.split("\n").length + 1)}
      spellcheck={false}
      wrap="off"
      value={typing.text}
      onInput={(event) => typing.type(event.currentTarget.value)}
      onBlur={typing.finish}
    />
  );
}

const NONE: readonly RowIssue[] = [];

/** Faults between fields, at the fields that they are of; the schema's own the form finds itself. */
function otherFaults(issues: readonly RowIssue[], name: string, value: unknown): Fault[] {
  return issues
    .filter(({ file, column }) => file === name && column !== null)
    .map(({ column, expected }) => {
      const path = (column ?? "").split(".");
      return { path, expected, received: path.reduce<unknown>(at, value) };
    });
}
