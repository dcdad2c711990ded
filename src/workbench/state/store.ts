import type { Words } from "../words/en.ts";
import { benchActions } from "./actions/bench.ts";
import { draftActions } from "./actions/drafts.ts";
import { exploreActions } from "./actions/explore.ts";
import { historyActions } from "./actions/history.ts";
import { mappingActions } from "./actions/mapping.ts";
import { methodActions } from "./actions/methods.ts";
import { openActions } from "./actions/open.ts";
import { saveActions } from "./actions/save.ts";
import { studyActions } from "./actions/study.ts";
import type { Core, Outside } from "./core.ts";
import { Evaluating } from "./evaluating.ts";
import { Foreground } from "./foreground.ts";
import { amended, moved } from "./history.ts";
import { Keeper } from "./keep.ts";
import { FIRST_STATE, type State, workOf } from "./state.ts";

/** The page's one store: a state, and actions named by what the user does. */
export interface Store {
  get(): State;
  /** Calls back after each change; gives back the way to end that. */
  subscribe(listener: () => void): () => void;
  readonly actions: Actions;
}

/** A group of actions is one file in `actions/` and one line here. */
function actionsOf(parts: Parameters<typeof benchActions>[0]) {
  const { core } = parts;
  return {
    ...benchActions(parts),
    ...openActions(core),
    ...studyActions(core),
    ...mappingActions(core),
    ...exploreActions(core),
    ...draftActions(core),
    ...methodActions(core),
    ...historyActions(core),
    ...saveActions(core),
  };
}

export type Actions = ReturnType<typeof actionsOf>;

/** Bytes that are squeezed in a few hundredths of a second. */
const KEPT_FIRST = 500_000;

export function createStore(outside: Outside, words: Words): Store {
  let state: State = FIRST_STATE;
  const listeners = new Set<() => void>();
  const set: Core["set"] = (change) => {
    state = { ...state, ...change };
    for (const listener of [...listeners]) listener();
  };
  const foreground = new Foreground(outside.desk, set);
  const keeper = new Keeper(outside);
  const place: Core["place"] = (history) => {
    set({ history });
    // What is quickly kept is kept first; a large study is computed first, for the user waits for that.
    const keep = () => void keeper.keep(() => state).then((kept) => set({ kept }));
    const first = keeper.unsqueezed(workOf(state)) <= KEPT_FIRST;
    if (first) keep();
    void evaluating.begin();
    if (!first) keep();
  };
  const core: Core = {
    outside,
    words,
    get: () => state,
    set,
    run: (job, ask, first, started) => foreground.run(job, ask, first, started),
    place,
    step: (what, change) => place(moved(state.history, what, { ...workOf(state), ...change })),
    amend(what, change) {
      const work = { ...workOf(state), ...change };
      const same = state.history.past.at(-1)?.what === what;
      place(same ? amended(state.history, work) : moved(state.history, what, work));
    },
  };
  const evaluating = new Evaluating(core);
  return {
    get: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    actions: actionsOf({ core, evaluating, foreground, keeper }),
  };
}
