import { FileButton } from "../study/file-button.tsx";
import type { DraftProps } from "./draft-view.tsx";

/** The ways to begin a plan or an algorithm file. */
export function BeginDraft({ kind, store, words }: DraftProps) {
  const { drafts } = words;
  const of = drafts.kinds[kind];
  const { beginDraft, openDraft } = store.actions;
  return (
    <main class="begin">
      <p class="over">{of.over}</p>
      <h1>{of.heading}</h1>
      <p class="sub">{of.sub}</p>
      <section>
        <h2>{of.example}</h2>
        <p>{of.exampleText}</p>
        <p class="buttons">
          <button type="button" onClick={() => beginDraft(kind, "example")}>
            {drafts.beginExample}
          </button>
        </p>
      </section>
      <section>
        <h2>{drafts.template}</h2>
        <p>{drafts.templateText}</p>
        <p class="buttons">
          <button type="button" onClick={() => beginDraft(kind, "template")}>
            {drafts.beginTemplate}
          </button>
        </p>
      </section>
      <section>
        <h2>{drafts.files}</h2>
        <p>{drafts.filesText(of.files)}</p>
        <p class="buttons">
          <FileButton label={drafts.choose} open={(files) => openDraft(kind, files)} />
        </p>
      </section>
    </main>
  );
}
