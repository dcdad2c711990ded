import type { ComponentChildren } from "preact";
import { hasStudy, workOf } from "../../state/state.ts";
import { useStore } from "../use-store.ts";
import type { View, ViewProps } from "../view.ts";
import { ChartTable } from "./chart-table.tsx";

/** What can be taken away. */
export const saveView: View = {
  id: "save",
  title: (words) => words.save.title,
  status: (state, words) => (hasStudy(state) ? words.bench.status.toSave : null),
  Page: Save,
};

function Save({ store, words }: ViewProps) {
  const open = useStore(store, hasStudy);
  const ready = useStore(store, ({ shown }) => shown !== null);
  const explored = useStore(store, (state) => workOf(state).explored.length > 0);
  const { save } = words;
  const { actions } = store;
  return (
    <main>
      <p class="over">{save.over}</p>
      <h1>{save.heading}</h1>
      <p class="sub">{save.sub}</p>
      {explored && <p>{words.explore.saveMark}</p>}
      {!open && <p>{save.nothing}</p>}
      {ready && (
        <>
          <Part
            title={save.report}
            text={save.reportText}
            button={save.reportButton}
            act={actions.saveReport}
          />
          <Part
            title={save.evaluation}
            text={save.evaluationText}
            button={save.evaluationButton}
            act={actions.saveEvaluation}
          />
          <Part
            title={save.tables}
            text={save.tablesText}
            button={save.tablesButton}
            act={actions.saveTables}
          />
          <Part
            title={save.charts}
            text={save.chartsText}
            button={save.chartsButton}
            act={actions.saveCharts}
          >
            <ChartTable store={store} words={words} />
          </Part>
        </>
      )}
      {open && (
        <Part title={save.study} text={save.studyText} button={save.studyButton} act={actions.saveStudy} />
      )}
      {ready && actions.canSaveInto() && (
        <Part title={save.into} text={save.intoText} button={save.intoButton} act={actions.saveInto} />
      )}
    </main>
  );
}

interface PartProps {
  readonly title: string;
  readonly text: string;
  readonly button: string;
  readonly act: () => Promise<void>;
  readonly children?: ComponentChildren;
}

/** One thing to take away: what it is, and the button that hands it over. */
function Part({ title, text, button, act, children }: PartProps) {
  return (
    <section class="to-save">
      <h2>{title}</h2>
      <p>{text}</p>
      <p class="buttons">
        <button type="button" onClick={() => void act()}>
          {button}
        </button>
      </p>
      {children}
    </section>
  );
}
