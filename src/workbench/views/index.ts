import { algorithmsView, planView } from "./drafts/view.tsx";
import { methodsView } from "./methods/view.tsx";
import { reportView } from "./report/view.tsx";
import { saveView } from "./save/view.tsx";
import { studyView } from "./study/view.tsx";
import type { View } from "./view.ts";

/** The parts of the workbench, in the order of the list at the side. */
export const views: readonly View[] = [
  studyView,
  reportView,
  planView,
  algorithmsView,
  methodsView,
  saveView,
];
