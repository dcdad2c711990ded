import { useMemo, useState } from "preact/hooks";
import { edited } from "../../../forms/edit.ts";
import { pathOf } from "../../../forms/labels.ts";
import { SchemaForm } from "../../../forms/schema-form.tsx";
import { mappingIn } from "../../../state/actions/mapping.ts";
import { workOf } from "../../../state/state.ts";
import { guessed } from "../../../study/mapping/guess.ts";
import { lacking } from "../../../study/mapping/lacking.ts";
import { AboutSchema, type Mapping } from "../../../study/mapping/mapping.ts";
import { previewOf, type TablePreview } from "../../../study/mapping/table-preview.ts";
import type { Words } from "../../../words/en.ts";
import { useStore } from "../../use-store.ts";
import type { ViewProps } from "../../view.ts";
import { FileButton } from "../file-button.tsx";
import { FileTable } from "../file-table.tsx";
import { Chosen } from "./chosen.tsx";
import { Codes } from "./codes.tsx";
import { Columns } from "./columns.tsx";
import { LackList } from "./lack-list.tsx";

const TABLE = /\.(csv|tsv|txt)$/i;

/** Tables among the files of a folder. */
export function tablesIn(names: Iterable<string>): string[] {
  return [...names].filter((name) => TABLE.test(name));
}

/** A table that came without a study file: what its columns and codes are, pointed out by the user. */
export function MappingPage({ store, words }: ViewProps) {
  const { files, drafts } = useStore(store, workOf);
  const tables = tablesIn(files.keys());
  const said = mappingIn(drafts);
  const table = said !== null && tables.includes(said.table) ? said.table : (tables[0] ?? "");
  const bytes = files.get(table);
  const preview = useMemo(() => (bytes === undefined ? null : previewOf(bytes)), [bytes]);
  const { mapping: text } = words;
  const begin = (name: string): void => {
    const found = previewOf(files.get(name) ?? new Uint8Array());
    if (found !== null) store.actions.sayOfTable(guessed(name, found), text.steps.table, false);
  };
  return (
    <main class="mapping">
      <p class="over">{text.over}</p>
      <h1>{text.heading}</h1>
      <p class="sub">{text.sub}</p>
      {tables.length > 1 && (
        <Chosen label={text.table} value={table} options={tables} word={(name) => name} choose={begin} />
      )}
      {preview === null ? (
        <p>{text.unreadable}</p>
      ) : (
        <Said
          mapping={said?.table === table ? said : guessed(table, preview)}
          preview={preview}
          store={store}
          words={words}
        />
      )}
      <section>
        <h2>{words.study.open.files}</h2>
        <FileTable store={store} words={words} />
        <p class="buttons">
          <FileButton label={words.study.open.add} open={(opened) => void store.actions.openFiles(opened)} />
          <button type="button" onClick={() => store.actions.closeStudy()}>
            {words.study.open.close}
          </button>
        </p>
      </section>
    </main>
  );
}

interface SaidProps extends ViewProps {
  readonly mapping: Mapping;
  readonly preview: TablePreview;
}

function Said({ mapping, preview, store, words }: SaidProps) {
  const { mapping: text } = words;
  const [asked, ask] = useState(false);
  const lacks = lacking(mapping, preview);
  // What was typed last may be newer than what the page shows.
  const newest = (): Mapping => {
    const kept = mappingIn(workOf(store.get()).drafts);
    return kept?.table === mapping.table ? kept : mapping;
  };
  const make = (): void => {
    if (lacking(newest(), preview).length === 0) store.actions.makeStudyOf(newest(), preview);
    else ask(true);
  };
  const say = (next: Mapping, what: string, typing = false) => store.actions.sayOfTable(next, what, typing);
  const shape = (next: "results" | "counts") =>
    say({ ...guessed(mapping.table, preview, next), about: mapping.about }, text.steps.shape);
  const parts = { mapping, preview, say, words };
  return (
    <>
      <Chosen
        label={text.shape}
        value={mapping.shape}
        options={["results", "counts"] as const}
        word={(one) => text.shapes[one]}
        choose={shape}
      />
      <Columns {...parts} />
      {mapping.shape === "results" && <Codes {...parts} of="rapid" />}
      {mapping.shape === "results" && <Codes {...parts} of="reference" />}
      <section>
        <h2>{text.about}</h2>
        <SchemaForm
          id="about-table"
          schema={AboutSchema}
          value={mapping.about}
          words={words}
          quiet={!asked}
          onEdit={(edit, typing) =>
            say({ ...newest(), about: edited(newest().about, edit) }, pathOf(edit.path, words), typing)
          }
        />
      </section>
      <p class="buttons">
        <button type="button" onClick={make}>
          {text.make}
        </button>
      </p>
      <p class="how">{text.how}</p>
      {lacks.length > 0 && <LackList lacks={lacks} asked={asked} words={words} />}
    </>
  );
}

/** What the parts of the page share. */
export interface MappingPart {
  readonly mapping: Mapping;
  readonly preview: TablePreview;
  readonly say: (next: Mapping, what: string, typing?: boolean) => void;
  readonly words: Words;
}
