import type { InputFile } from "../../../records/model.ts";
import { ALGORITHM_PAGE } from "../../../report/algorithm/algorithm-files.ts";
import { PLAN_PAGE } from "../../../report/plan/plan-files.ts";
import {
  BEGINNINGS,
  type Beginning,
  type DraftKind,
  type DraftPart,
  draftFrom,
  draftKey,
  kitNameOf,
  type PageDraft,
  pageAsk,
  pageDraftOf,
  withPageDraft,
} from "../../drafts/page-draft.ts";
import type { Edit } from "../../forms/edit.ts";
import { editedYaml } from "../../forms/edited-yaml.ts";
import { pathOf } from "../../forms/labels.ts";
import type { Running } from "../../work/desk.ts";
import type { Core, Saved } from "../core.ts";
import { workOf } from "../state.ts";

const PAGES: Readonly<Record<DraftKind, string>> = { plan: PLAN_PAGE, algorithms: ALGORITHM_PAGE };

/** Plans and testing algorithms: begun, edited as form or text, drawn, saved. */
export function draftActions(core: Core) {
  const drafts = new Drafts(core);
  const { steps } = core.words.drafts;
  const named = (kind: DraftKind) => core.words.drafts.kinds[kind].name;
  return {
    /** Begins with the template or with the invented example. */
    beginDraft(kind: DraftKind, beginning: Beginning): void {
      drafts.put(kind, BEGINNINGS[kind][beginning], steps.begun(named(kind)));
    },
    /** Opens files of the user's: the file itself, for a plan its kit file too, together or after it. */
    openDraft(kind: DraftKind, files: readonly InputFile[]): void {
      const draft = draftFrom(kind, files, drafts.of(kind));
      if (draft !== null) drafts.put(kind, draft, steps.opened(draft.name));
      else {
        const detail = core.words.bench.listed(files.map(({ name }) => name));
        core.set({ trouble: { kind: "nothing_readable", detail } });
      }
    },
    /** Puts it away; undo brings it back. */
    closeDraft(kind: DraftKind): void {
      drafts.put(kind, null, steps.closed(named(kind)));
    },
    /** Writes a text anew; typing on in the same text is one step. */
    editDraftText(kind: DraftKind, part: DraftPart, text: string): void {
      drafts.edit(kind, part, () => text, null, true);
    },
    /** Takes an edit of a form over into the text; a run of typing in one field is one step. */
    editDraftField(kind: DraftKind, part: DraftPart, edit: Edit, typing: boolean): void {
      const field = pathOf(edit.path, core.words);
      drafts.edit(kind, part, (text) => editedYaml(text, edit), field, typing);
    },
    /** Draws the page of the present texts, unless it stands; a newer drawing stops the older. */
    drawDraft: (kind: DraftKind) => drafts.draw(kind),
    /** The page, one HTML file: the bytes of the command line's. */
    async saveDraftPage(kind: DraftKind): Promise<void> {
      const files = await drafts.folder(kind);
      hand(core, files.find(({ name }) => name === PAGES[kind]) ?? null);
    },
    /** Page, document, tables and charts, and the files that they were made from, in one archive. */
    async saveDraftFolder(kind: DraftKind): Promise<void> {
      const made = await drafts.folder(kind);
      if (made.length === 0) return;
      const entries = [...drafts.texts(kind), ...made].map(({ name, content }) => ({
        name,
        bytes: bytesOf(content),
      }));
      const content = await core.run("pack", entries, "packing");
      if (content !== null) hand(core, { name: `fourfold-${kind}.zip`, content });
    },
    /** The file as it is edited. */
    saveDraftText(kind: DraftKind, part: DraftPart): void {
      hand(core, drafts.texts(kind)[part === "file" ? 0 : 1] ?? null);
    },
  };
}

/** The texts of the pages among the work's drafts. */
class Drafts {
  readonly #core: Core;
  #running: Running<"drawPage"> | null = null;

  constructor(core: Core) {
    this.#core = core;
  }

  of(kind: DraftKind): PageDraft | null {
    return pageDraftOf(workOf(this.#core.get()).drafts, kind);
  }

  put(kind: DraftKind, draft: PageDraft | null, what: string): void {
    const { drafted } = this.#core.get();
    this.#core.set({ trouble: null, drafted: { ...drafted, [kind]: null } });
    this.#core.step(what, { drafts: withPageDraft(workOf(this.#core.get()).drafts, kind, draft) });
  }

  edit(
    kind: DraftKind,
    part: DraftPart,
    change: (text: string) => string,
    field: string | null,
    typing: boolean,
  ): void {
    const draft = this.of(kind);
    const text = draft?.[part] ?? null;
    if (draft === null || text === null) return;
    const next = change(text);
    if (next === text) return;
    const name = part === "file" ? draft.name : (kitNameOf(draft) ?? part);
    const { steps } = this.#core.words;
    const what = field === null ? steps.edited(name) : steps.editedField(name, field);
    const drafts = withPageDraft(workOf(this.#core.get()).drafts, kind, { ...draft, [part]: next });
    if (typing) this.#core.amend(what, { drafts });
    else this.#core.step(what, { drafts });
  }

  async draw(kind: DraftKind): Promise<void> {
    const draft = this.of(kind);
    this.#running?.stop();
    if (draft === null) return;
    const of = draftKey(draft);
    if (this.#core.get().drafted[kind]?.of === of) return;
    const given = await this.#core.run("drawPage", pageAsk(kind, draft), "reading", (running) => {
      this.#running = running;
    });
    if (given === null) return;
    const { drafted, trouble } = this.#core.get();
    const page = given.page ?? drafted[kind]?.page ?? null;
    const said = this.#core.words.drafts;
    this.#core.set({
      drafted: { ...drafted, [kind]: { of, issues: given.issues, stands: given.page !== null, page } },
      announced: given.page === null ? said.notReadable : said.stands,
      trouble: given.page === null ? trouble : null,
    });
  }

  async folder(kind: DraftKind): Promise<readonly Saved[]> {
    const draft = this.of(kind);
    if (draft === null) return [];
    return (await this.#core.run("pageFolder", pageAsk(kind, draft), "writing")) ?? [];
  }

  /** The texts as files, the kit file last. */
  texts(kind: DraftKind): Saved[] {
    const draft = this.of(kind);
    if (draft === null) return [];
    const kit = kitNameOf(draft);
    const beside = draft.kit === null || kit === null ? [] : [{ name: kit, content: draft.kit }];
    return [{ name: draft.name, content: draft.file }, ...beside];
  }
}

function hand(core: Core, file: Saved | null): void {
  if (file === null) return;
  core.outside.download(file);
  core.set({ announced: core.words.save.saved(file.name) });
}

function bytesOf(content: string | Uint8Array): Uint8Array {
  return typeof content === "string" ? new TextEncoder().encode(content) : content;
}
