import type { ComponentType } from "preact";
import type { State } from "../state/state.ts";
import type { Store } from "../state/store.ts";
import type { ViewId } from "../state/view-id.ts";
import type { Words } from "../words/en.ts";

/** What every view is given. */
export interface ViewProps {
  readonly store: Store;
  readonly words: Words;
}

/** A part of the workbench: one line in the list at the side, one page, and what stands beside it. */
export interface View {
  readonly id: ViewId;
  readonly title: (words: Words) => string;
  /** One line of what stands there now; `null` where nothing needs saying. */
  readonly status: (state: State, words: Words) => string | null;
  /** Has one `main` and one `h1`. It stays on the page, hidden, while another is shown. */
  readonly Page: ComponentType<ViewProps>;
  /** Controls for the column at the side, shown with the page. */
  readonly Beside?: ComponentType<ViewProps>;
}
