import type { ComponentType } from "preact";
import { useMemo } from "preact/hooks";
import { changeLines } from "../../../report/exploration-lines.ts";
import { lookingAt } from "../../explore/looked-at.ts";
import { type Shown, workOf } from "../../state/state.ts";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";
import { CriteriaPart } from "./criteria-part.tsx";
import { IntervalPart } from "./interval-part.tsx";
import type { PartProps } from "./part.ts";
import { PeoplePart } from "./people-part.tsx";
import { PrevalencePart } from "./prevalence-part.tsx";
import { StrataPart } from "./strata-part.tsx";
import { TreatmentPart } from "./treatment-part.tsx";

type PartName = "prevalence" | "criteria" | "interval" | "treatment" | "strata" | "people";

/** The groups of controls, each with the beginnings of the paths that it changes. */
const PARTS: readonly { name: PartName; paths: string; Part: ComponentType<PartProps> }[] = [
  { name: "prevalence", paths: "prevalences.", Part: PrevalencePart },
  { name: "criteria", paths: "criteria.", Part: CriteriaPart },
  { name: "interval", paths: "interval.", Part: IntervalPart },
  { name: "treatment", paths: "treatment.", Part: TreatmentPart },
  { name: "people", paths: "subset.", Part: PeoplePart },
  { name: "strata", paths: "strata.", Part: StrataPart },
];

/** Choices of the plan that may be changed, beside the report that follows them. */
export function ExploreBeside({ store, words }: ViewProps) {
  const shown = useStore(store, (state) => state.shown);
  return shown === null ? null : <Explore store={store} words={words} shown={shown} />;
}

function Explore({ store, words, shown }: ViewProps & { shown: Shown }) {
  const explored = useStore(store, (state) => workOf(state).explored);
  const looking = useMemo(() => lookingAt(shown.evaluation, explored), [shown, explored]);
  const own = words.explore;
  const paths = looking.exploration?.changes.map(({ path }) => path) ?? [];
  return (
    <div class="explore">
      <h2>{own.heading}</h2>
      <p class="explore-state">{paths.length === 0 ? own.asPlanned : own.changed(paths.length)}</p>
      <button
        type="button"
        class="plain"
        disabled={explored.length === 0}
        onClick={() => store.actions.backToPlan()}
      >
        {own.back}
      </button>
      {PARTS.map(({ name, paths: beginning, Part }, place) => {
        const changed = paths.filter((path) => path.startsWith(beginning)).length;
        return (
          <details key={name} name="explore" open={place === 0 && isWide()}>
            <summary>
              {own[name].title}{" "}
              {changed > 0 && <span class="explore-changed">{own.groupChanged(changed)}</span>}
            </summary>
            <Part store={store} words={words} shown={shown} looking={looking} />
          </details>
        );
      })}
      <Differs store={store} words={words} shown={shown} looking={looking} />
    </div>
  );
}

/** Where the column stands above the page, the groups begin closed. */
function isWide(): boolean {
  return !globalThis.matchMedia?.("(max-width:60rem)").matches;
}

/** Each change, with the way back of that one alone. */
function Differs({ store, words, looking }: PartProps) {
  const own = words.explore;
  const lines = changeLines(looking.study, looking.exploration, words.inReport);
  if (lines.length === 0) return null;
  return (
    <section class="differs" aria-label={own.differs}>
      <h3>{own.differs}</h3>
      <ul>
        {lines.map(({ path, what, planned, explored }) => (
          <li key={path}>
            {words.inReport.exploration.change(what, planned, explored)}{" "}
            <button
              type="button"
              class="plain"
              aria-label={own.backOne(what)}
              onClick={() => store.actions.backOne(what, path)}
            >
              {own.backWord}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
