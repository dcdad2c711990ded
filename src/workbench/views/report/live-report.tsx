import { useMemo } from "preact/hooks";
import { methodTexts } from "../../../evaluation/catalogue.ts";
import { contentsOf } from "../../../report/contents.ts";
import type { Report } from "../../../report/context.ts";
import { Page } from "../../../report/page.tsx";
import { runningHead } from "../../../report/running-head.ts";
import { printStyles } from "../../../report/styles/print.ts";
import type { Words as ReportWords } from "../../../report/words/en.ts";
import { hasStudy, type Shown, workOf } from "../../state/state.ts";
import { sameStudy } from "../../state/work.ts";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

/** The report of the open study, drawn by the report's own components. It stays until the next one stands. */
export function LiveReport({ store, words }: ViewProps) {
  const shown = useStore(store, (state) => state.shown);
  if (shown === null) return <NoReport store={store} words={words} />;
  return (
    <>
      <EarlierLine store={store} words={words} />
      <ReportOf shown={shown} words={words.inReport} />
    </>
  );
}

function ReportOf({ shown, words }: { shown: Shown; words: ReportWords }) {
  const page = useMemo(() => {
    const { evaluation, figures } = shown;
    const report: Report = {
      evaluation,
      words,
      figures: new Map(figures.map((figure) => [figure.name, figure])),
      methodTexts,
      contents: contentsOf(evaluation, words),
    };
    return <Page report={report} />;
  }, [shown, words]);
  const running = runningHead(shown.evaluation, words);
  return (
    <>
      <style>{printStyles(running, words.page.footer)}</style>
      {page}
    </>
  );
}

/** Says where the report is of another state of the files than the present one. */
function EarlierLine({ store, words }: ViewProps) {
  const state = useStore(store, (whole) => whole);
  const { shown, reading, task } = state;
  const work = workOf(state);
  if (shown === null || sameStudy(shown.of, work) || task !== null) return null;
  const unreadable = reading !== null && !reading.readable && sameStudy(reading.of, work);
  return (
    <p class="earlier">
      {unreadable ? words.report.earlierUnreadable : words.report.earlier}{" "}
      {unreadable ? (
        <button type="button" class="plain" onClick={() => store.actions.show("study")}>
          {words.report.toFaults}
        </button>
      ) : (
        <button type="button" class="plain" onClick={() => store.actions.again()}>
          {words.bench.again}
        </button>
      )}
    </p>
  );
}

function NoReport({ store, words }: ViewProps) {
  const state = useStore(store, (whole) => whole);
  const { report, bench } = words;
  const coming = state.task !== null;
  const stopped = !coming && hasStudy(state);
  return (
    <main>
      <p class="over">{words.inReport.page.kind}</p>
      <h1>{coming ? report.coming : report.none}</h1>
      <p class="sub">{coming ? report.comingText : report.noneText}</p>
      {stopped && (
        <button type="button" onClick={() => store.actions.again()}>
          {bench.again}
        </button>
      )}
      {!coming && !stopped && (
        <button type="button" onClick={() => store.actions.show("study")}>
          {report.toStudy}
        </button>
      )}
    </main>
  );
}
