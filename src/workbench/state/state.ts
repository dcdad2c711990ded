import type { Evaluation } from "../../evaluation/document.ts";
import type { SubsetGroups } from "../../evaluation/exploration/groups.ts";
import type { RowIssue } from "../../records/model.ts";
import type { RenderedFigure } from "../../report/render-figures.ts";
import type { DraftKind } from "../drafts/page-draft.ts";
import type { DrawnPage } from "../work/drawn-page.ts";
import type { MethodGiven } from "../work/jobs/compute-method.ts";
import type { ReadingFound } from "../work/read-study-files.ts";
import type { JobStep } from "../work/step.ts";
import { begun, type History } from "./history.ts";
import type { ViewId } from "./view-id.ts";
import { NO_WORK, type Work } from "./work.ts";

/** A reading or an evaluation, with the work that it is of: newer work makes it old, not wrong. */
interface Of {
  readonly of: Work;
}

export type Reading = ReadingFound & Of;

export interface Shown extends Of {
  readonly evaluation: Evaluation;
  readonly figures: readonly RenderedFigure[];
  /** Whom an exploration could look at alone. */
  readonly groups: readonly SubsetGroups[];
}

/** Something that went wrong, until it is dismissed or the next thing works. */
export interface Trouble {
  readonly kind: "input" | "program" | "nothing_readable" | "no_archive" | "not_saved";
  /** What to show beside the words for the kind. */
  readonly detail: string;
}

/** What came of the texts of a page; the page of earlier texts stays until a newer one stands. */
export interface Drafted {
  /** Key of the texts that this is of. */
  readonly of: string;
  readonly issues: readonly RowIssue[];
  /** Whether the page is of these texts. */
  readonly stands: boolean;
  readonly page: DrawnPage | null;
}

/** What came of asking a method of the catalogue. */
export interface Tried {
  readonly id: string;
  /** What was asked, as it lay among the drafts. */
  readonly of: string;
  readonly given: MethodGiven;
  /** How long it took. */
  readonly milliseconds: number;
}

/** How much of the work a reload would bring back. */
export type Kept = "nothing" | "everything" | "without_tables" | "unable";

/** All that the page shows. Plain data, replaced and never changed in place. */
export interface State {
  readonly view: ViewId;
  readonly history: History<Work>;
  /** What reading the study files found; `null` before any study. */
  readonly reading: Reading | null;
  /** The report on the page. It stays until a newer one stands. */
  readonly shown: Shown | null;
  /** The last method that was asked; `null` before any. */
  readonly tried: Tried | null;
  /** What came of the texts of each page; `null` before any. */
  readonly drafted: Readonly<Record<DraftKind, Drafted | null>>;
  /** What is being computed now. */
  readonly task: JobStep | null;
  readonly trouble: Trouble | null;
  readonly kept: Kept;
  /** Said by screen readers when it changes. */
  readonly announced: string;
}

export const FIRST_STATE: State = {
  view: "study",
  history: begun(NO_WORK),
  reading: null,
  shown: null,
  tried: null,
  drafted: { plan: null, algorithms: null },
  task: null,
  trouble: null,
  kept: "nothing",
  announced: "",
};

export function workOf(state: State): Work {
  return state.history.present;
}

/** Whether a study is open, readable or not. */
export function hasStudy(state: State): boolean {
  return workOf(state).files.size > 0;
}
