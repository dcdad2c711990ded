import { useMemo, useState } from "preact/hooks";
import type { GenericSchema } from "valibot";
import { KitSchema } from "../../../records/kit.ts";
import type { RowIssue } from "../../../records/model.ts";
import { StudySchema } from "../../../records/study.ts";
import { STUDY_FILE } from "../../../records/study-file.ts";
import { valueOfYaml } from "../../forms/edited-yaml.ts";
import type { Fault } from "../../forms/faults.ts";
import { SchemaForm } from "../../forms/schema-form.tsx";
import { at } from "../../forms/shape.ts";
import { useTyping } from "../../forms/use-typing.ts";
import { workOf } from "../../state/state.ts";
import { textOf } from "../../study/folder.ts";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

/** The study file and the kit files: each as a form, and its text folded beside it. */
export function FileForms({ store, words }: ViewProps) {
  const { files } = useStore(store, workOf);
  const shown = [...files.keys()].flatMap((name) => {
    const text = /\.ya?ml$/i.test(name) ? textOf(files, name) : null;
    const schema = text === null ? null : schemaOf(name, text);
    return text === null || schema === null ? [] : [{ name, text, schema }];
  });
  return (
    <>
      {shown.map((file) => (
        <FileForm key={file.name} {...file} store={store} words={words} />
      ))}
    </>
  );
}

/** The study file by its name; a kit file by its first words, so that a faulty one has its form too. */
function schemaOf(name: string, text: string): GenericSchema | null {
  if (name === STUDY_FILE) return StudySchema;
  return /fourfold-kit\//.test(text) ? KitSchema : null;
}

interface Props extends ViewProps {
  readonly name: string;
  readonly text: string;
  readonly schema: GenericSchema;
}

export function formId(name: string): string {
  return `form-${name.replace(/[^A-Za-z0-9]+/g, "-")}`;
}

function FileForm({ name, text, schema, store, words }: Props) {
  const [open, setOpen] = useState(false);
  const id = formId(name);
  return (
    <details class="file-form" id={id} open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h2>{words.forms.asForm(name)}</h2>
      </summary>
      {open && <Opened id={id} name={name} text={text} schema={schema} store={store} words={words} />}
    </details>
  );
}

function Opened({ id, name, text, schema, store, words }: Props & { readonly id: string }) {
  const parsed = useMemo(() => valueOfYaml(text), [text]);
  const issues = useStore(store, ({ reading }) => reading?.issues ?? NONE);
  const faults = useMemo(() => otherFaults(issues, name, parsed?.value), [issues, name, parsed]);
  return (
    <div class="file-form-open">
      {parsed === null ? (
        <p class="form-fault">{words.forms.noForm}</p>
      ) : (
        <SchemaForm
          id={id}
          schema={schema}
          value={parsed.value}
          words={words}
          faults={faults}
          folded
          onEdit={(edit, typing) => store.actions.editField(name, edit, typing)}
        />
      )}
      <details class="file-text" open={parsed === null}>
        <summary>{words.forms.asText(name)}</summary>
        <FileText
          label={words.forms.asText(name)}
          text={text}
          take={(next) => store.actions.editFile(name, next)}
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

function FileText({ label, text, take }: TextProps) {
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
      onBlur={typing.leave}
    />
  );
}

const NONE: readonly RowIssue[] = [];
/** What the form's own schema says already. */
const OF_SCHEMA = new Set(["wrong_field", "unknown_field"]);

/** Faults between fields and files, at the fields that they are of. */
function otherFaults(issues: readonly RowIssue[], name: string, value: unknown): Fault[] {
  return issues
    .filter(({ file, rule, column }) => file === name && column !== null && !OF_SCHEMA.has(rule))
    .map(({ column, expected }) => {
      const path = (column ?? "").split(".");
      return { path, expected, received: path.reduce<unknown>(at, value) };
    });
}
