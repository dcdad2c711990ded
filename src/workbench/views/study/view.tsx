import { STUDY_FILE } from "../../../records/study-file.ts";
import { hasStudy, type State, workOf } from "../../state/state.ts";
import type { Work } from "../../state/work.ts";
import type { Words } from "../../words/en.ts";
import { useStore } from "../use-store.ts";
import type { View, ViewProps } from "../view.ts";
import { Begin } from "./begin.tsx";
import { MappingPage, tablesIn } from "./mapping/mapping-page.tsx";
import { OpenStudy } from "./open-study.tsx";

/** Opening a study, and what is found in its files. */
export const studyView: View = {
  id: "study",
  title: (words) => words.study.title,
  status: (state, words) => statusOf(state, words),
  Page: StudyPage,
};

function StudyPage({ store, words }: ViewProps) {
  const open = useStore(store, hasStudy);
  const bare = useStore(store, (state) => isBareTable(workOf(state)));
  if (bare) return <MappingPage store={store} words={words} />;
  return open ? <OpenStudy store={store} words={words} /> : <Begin store={store} words={words} />;
}

/** Tables came, but no study file says what they hold. */
function isBareTable({ files }: Work): boolean {
  return files.size > 0 && !files.has(STUDY_FILE) && tablesIn(files.keys()).length > 0;
}

function statusOf(state: State, { bench }: Words): string {
  if (!hasStudy(state)) return bench.status.noStudy;
  const { files, title } = workOf(state);
  const { reading } = state;
  if (reading === null) return bench.status.files(files.size, title);
  if (!reading.readable) return bench.status.notReadable;
  const number = (severity: string) => reading.issues.filter((issue) => issue.severity === severity).length;
  return `${title}: ${bench.status.faults(number("error"), number("warning"))}`;
}
