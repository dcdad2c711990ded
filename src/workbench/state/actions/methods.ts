import { findMethod } from "../../../methods/index.ts";
import { type Edit, edited } from "../../forms/edit.ts";
import { pathOf } from "../../forms/labels.ts";
import {
  asked,
  draftText,
  emptyDraft,
  type MethodDraft,
  methodPlace,
  OPEN_METHOD,
  readDraft,
} from "../../methods/method-draft.ts";
import type { Running } from "../../work/desk.ts";
import type { Core } from "../core.ts";
import { workOf } from "../state.ts";

/** Which half of what a method is asked. */
export type Half = keyof MethodDraft;

/** Asks methods of the catalogue. */
export function methodActions(core: Core) {
  let running: Running<"computeMethod"> | null = null;
  const textOf = (id: string) => workOf(core.get()).drafts[methodPlace(id)];
  const taken = (id: string, draft: MethodDraft) => ({
    ...opened(core, id),
    [methodPlace(id)]: draftText(draft),
  });
  /** Computes what the form asks; a newer asking stops the older. */
  const computeMethod = async (id: string): Promise<void> => {
    const of = textOf(id);
    const draft = readDraft(of);
    running?.stop();
    if (draft === null || of === undefined) return;
    const began = performance.now();
    const given = await core.run("computeMethod", { id, ...draft }, "computing", (started) => {
      running = started;
    });
    if (given === null) return;
    const milliseconds = performance.now() - began;
    core.set({ tried: { id, of, given, milliseconds }, announced: core.words.methods.announced });
  };
  return {
    computeMethod,
    /** Opens a method, or the list of all. */
    openMethod(id: string | null): void {
      const { steps } = core.words.methods;
      core.step(id === null ? steps.closed : steps.opened(titleOf(id)), { drafts: opened(core, id) });
    },
    /** Fills the form with a worked example, and computes it. */
    takeExample(id: string, place: number): void {
      const example = findMethod(id)?.examples[place];
      if (example === undefined) return;
      core.step(core.words.methods.steps.example(titleOf(id)), { drafts: taken(id, asked(example)) });
      void computeMethod(id);
    },
    /** Begins with an empty form. */
    emptyMethod(id: string): void {
      const method = findMethod(id);
      if (method === undefined) return;
      core.step(core.words.methods.steps.emptied(titleOf(id)), {
        drafts: taken(id, emptyDraft(method.input)),
      });
    },
    /** Changes a field of what a method is asked; a run of typing is one step. */
    editMethod(id: string, half: Half, edit: Edit, typing: boolean): void {
      const draft = readDraft(textOf(id));
      if (draft === null) return;
      const next = { ...draft, [half]: edited(draft[half], edit) };
      const what = core.words.methods.steps.edited(titleOf(id), pathOf(edit.path, core.words));
      const change = { drafts: taken(id, next) };
      if (typing) core.amend(what, change);
      else core.step(what, change);
    },
  };
}

function titleOf(id: string): string {
  return findMethod(id)?.title ?? id;
}

/** The drafts with a method open, or none. */
function opened(core: Core, id: string | null): Record<string, string> {
  const { [OPEN_METHOD]: _closed, ...rest } = workOf(core.get()).drafts;
  return id === null ? rest : { ...rest, [OPEN_METHOD]: id };
}
