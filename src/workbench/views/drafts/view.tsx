import type { DraftKind } from "../../drafts/page-draft.ts";
import { type State, workOf } from "../../state/state.ts";
import type { Words } from "../../words/en.ts";
import type { View } from "../view.ts";
import { DraftBeside } from "./draft-beside.tsx";
import { DraftView } from "./draft-view.tsx";

/** A study plan: how many people. */
export const planView: View = draftView("plan");

/** Testing algorithms: which tests, in which order, for whom. */
export const algorithmsView: View = draftView("algorithms");

function draftView(kind: DraftKind): View {
  return {
    id: kind,
    title: (words) => words.drafts.kinds[kind].title,
    status: (state, words) => statusOf(kind, state, words),
    Page: (props) => <DraftView kind={kind} {...props} />,
    Beside: (props) => <DraftBeside kind={kind} {...props} />,
  };
}

function statusOf(kind: DraftKind, state: State, { drafts }: Words): string {
  const drafted = state.drafted[kind];
  if (workOf(state).drafts[kind] === undefined) return drafts.kinds[kind].none;
  if (drafted === null) return drafts.begun;
  if (!drafted.stands || drafted.page === null) return drafts.statusFaults;
  return idOf(drafted.page);
}

function idOf(page: NonNullable<NonNullable<State["drafted"][DraftKind]>["page"]>): string {
  return page.kind === "plan" ? page.document.plan.id : page.document.file.id;
}
