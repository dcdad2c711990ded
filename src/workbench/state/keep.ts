import type { Outside } from "./core.ts";
import { type Kept, type State, workOf } from "./state.ts";
import { type KeptWork, readShelf, type Shelf, wipeShelf, writeShelf } from "./storage.ts";
import type { ViewId } from "./view-id.ts";
import type { Work } from "./work.ts";

const SMALL = /\.ya?ml$/i;

/** Keeps the present work over a reload. A file is squeezed once, when it is new. */
export class Keeper {
  readonly #outside: Outside;
  readonly #squeezed = new WeakMap<Uint8Array, string>();

  constructor(outside: Outside) {
    this.#outside = outside;
  }

  /** Bytes that keeping this work would have to squeeze first. */
  unsqueezed({ files }: Work): number {
    return this.#newOf({ files }).reduce((total, bytes) => total + bytes.length, 0);
  }

  /** Puts the state's work on the shelf, and says how much of it lies there. */
  async keep(state: () => State): Promise<Kept> {
    const { shelf } = this.#outside;
    if (shelf === null) return "unable";
    const work = workOf(state());
    await this.#squeeze(work);
    // A newer step keeps itself.
    if (workOf(state()).files !== work.files) return state().kept;
    return this.#put(shelf, state());
  }

  /** Puts what is squeezed already on the shelf. */
  #put(shelf: Shelf, state: State): Kept {
    const { files, drafts } = workOf(state);
    if (files.size === 0 && Object.keys(drafts).length === 0) {
      wipeShelf(shelf);
      return "nothing";
    }
    const kept = this.#keptOf(state);
    if (writeShelf(shelf, kept)) return "everything";
    const small = kept.files.filter(({ name }) => SMALL.test(name));
    return writeShelf(shelf, { ...kept, files: small }) ? "without_tables" : "unable";
  }

  /** The work that was kept, with the view it was left in; `null` without any that can be read. */
  async find(): Promise<{ readonly work: Work; readonly view: ViewId } | null> {
    const kept = readShelf(this.#outside.shelf);
    if (kept === null) return null;
    const { title, explored, drafts, view } = kept;
    try {
      const squeezed = kept.files.map((file) => file.squeezed);
      const pieces = await this.#outside.desk.run("unsqueeze", squeezed).given;
      const files = new Map(kept.files.map(({ name }, place) => [name, pieces[place] as Uint8Array]));
      pieces.forEach((bytes, place) => {
        this.#squeezed.set(bytes, squeezed[place] as string);
      });
      return { work: { title, explored, drafts, files }, view };
    } catch {
      return null;
    }
  }

  wipe(): void {
    wipeShelf(this.#outside.shelf);
  }

  #newOf({ files }: Pick<Work, "files">): Uint8Array[] {
    return [...files.values()].filter((bytes) => !this.#squeezed.has(bytes));
  }

  async #squeeze(work: Work): Promise<void> {
    const fresh = this.#newOf(work);
    if (fresh.length === 0) return;
    const texts = await this.#outside.desk.run("squeeze", fresh).given;
    fresh.forEach((bytes, place) => {
      this.#squeezed.set(bytes, texts[place] as string);
    });
  }

  #keptOf(state: State): KeptWork {
    const { title, explored, drafts, files } = workOf(state);
    const squeezed = [...files].map(([name, bytes]) => ({
      name,
      squeezed: this.#squeezed.get(bytes) as string,
    }));
    return { version: 1, view: state.view, title, explored, drafts, files: squeezed };
  }
}
