import { catalogue, findMethod } from "../../../methods/index.ts";
import { openMethodOf } from "../../methods/method-draft.ts";
import { type State, workOf } from "../../state/state.ts";
import type { Words } from "../../words/en.ts";
import { useStore } from "../use-store.ts";
import type { View, ViewProps } from "../view.ts";
import { MethodList } from "./method-list.tsx";
import { MethodPage } from "./method-page.tsx";

/** Every method of the catalogue, asked by itself. */
export const methodsView: View = {
  id: "methods",
  title: (words) => words.methods.title,
  status: (state, words) => statusOf(state, words),
  Page: Methods,
};

function statusOf(state: State, { methods }: Words): string {
  const open = openMethodOf(workOf(state));
  return open ?? methods.status(catalogue.length);
}

function Methods({ store, words }: ViewProps) {
  const open = useStore(store, (state) => openMethodOf(workOf(state)));
  const method = open === null ? undefined : findMethod(open);
  if (method === undefined) return <MethodList store={store} words={words} />;
  return <MethodPage key={method.id} method={method} store={store} words={words} />;
}
