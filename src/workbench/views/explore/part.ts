import type { Chosen } from "../../../evaluation/schema/exploration.ts";
import { subjectInWords } from "../../../report/exploration-lines.ts";
import type { LookedAt, Looking } from "../../explore/looked-at.ts";
import { withChange } from "../../explore/looked-at.ts";
import { type Shown, workOf } from "../../state/state.ts";
import type { ViewProps } from "../view.ts";

/** What every group of controls is given. */
export interface PartProps extends ViewProps {
  readonly shown: Shown;
  readonly looking: Looking;
}

/** Changes one choice, over the changes that there are. */
export function change({ store, words, looking }: PartProps, choice: LookedAt, value: Chosen): void {
  const what = subjectInWords(looking.planned, choice.subject, words.inReport);
  store.actions.explore(what, withChange(workOf(store.get()).explored, choice, value));
}
