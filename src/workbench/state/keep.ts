import { filesOf, folderOf, type StudyFolder } from "../study/folder.ts";
import { fromBase64, toBase64 } from "./base64.ts";
import type { Outside } from "./core.ts";
import { type Kept, type State, workOf } from "./state.ts";
import { type KeptWork, readShelf, wipeShelf, writeShelf } from "./storage.ts";
import type { ViewId } from "./view-id.ts";
import { NO_WORK, type Work } from "./work.ts";

const SMALL = /\.ya?ml$/i;

/** Keeps the present work over a reload. The archive of the files is packed anew only when they changed. */
export class Keeper {
  readonly #outside: Outside;
  #packed: { readonly files: StudyFolder; readonly archive: string } | null = null;

  constructor(outside: Outside) {
    this.#outside = outside;
  }

  /** Puts the state's work on the shelf, and says how much of it lies there. */
  async keep(state: () => State): Promise<Kept> {
    const { files } = workOf(state());
    const { shelf } = this.#outside;
    if (shelf === null) return "unable";
    const archive = await this.#archiveOf(files);
    const now = state();
    if (workOf(now).files !== files) return now.kept;
    if (nothingIn(now)) {
      wipeShelf(shelf);
      return "nothing";
    }
    if (writeShelf(shelf, keptOf(now, archive))) return "everything";
    const small = new Map([...files].filter(([name]) => SMALL.test(name)));
    return writeShelf(shelf, keptOf(now, await this.#pack(small))) ? "without_tables" : "unable";
  }

  /** The work that was kept, with the view it was left in; `null` without any. */
  async find(): Promise<{ readonly work: Work; readonly view: ViewId } | null> {
    const kept = readShelf(this.#outside.shelf);
    if (kept === null) return null;
    const unpacked = await this.#outside.desk.run("unpack", fromBase64(kept.archive)).given;
    if (!unpacked.ok) return null;
    const { title, explored, drafts, view } = kept;
    return { work: { title, explored, drafts, files: folderOf(unpacked.files) }, view };
  }

  wipe(): void {
    wipeShelf(this.#outside.shelf);
    this.#packed = null;
  }

  async #archiveOf(files: StudyFolder): Promise<string> {
    if (this.#packed?.files === files) return this.#packed.archive;
    const archive = await this.#pack(files);
    this.#packed = { files, archive };
    return archive;
  }

  async #pack(files: StudyFolder): Promise<string> {
    return toBase64(await this.#outside.desk.run("pack", filesOf(files)).given);
  }
}

function nothingIn(state: State): boolean {
  const { files, drafts } = workOf(state);
  return files.size === 0 && Object.keys(drafts).length === 0;
}

function keptOf(state: State, archive: string): KeptWork {
  const { title, explored, drafts } = { ...NO_WORK, ...workOf(state) };
  return { version: 1, view: state.view, title, explored, drafts, archive };
}
