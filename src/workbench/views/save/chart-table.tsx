import type { RenderedFigure } from "../../../report/render-figures.ts";
import type { ChartForm } from "../../state/charts.ts";
import { Scrolling } from "../scrolling.tsx";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

const FORMS: readonly ChartForm[] = ["svg", "png", "vl.json"];

/** Each chart of the report, with a button for each form. */
export function ChartTable({ store, words }: ViewProps) {
  const figures = useStore(store, ({ shown }) => shown?.figures ?? NONE);
  const { save } = words;
  if (figures.length === 0) return null;
  return (
    <Scrolling label={save.chartCaption}>
      <table>
        <thead>
          <tr>
            <th scope="col">{save.chart}</th>
            {FORMS.map((form) => (
              <th key={form} scope="col">
                <span class="unseen">{save.forms[form]}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {figures.map((figure) => (
            <tr key={figure.name}>
              <th scope="row">
                {titleOf(figure)}
                <span class="place">{figure.name}</span>
              </th>
              {FORMS.map((form) => (
                <td key={form}>
                  <button
                    type="button"
                    class="plain"
                    aria-label={save.saveChart(figure.name, save.forms[form])}
                    onClick={() => void store.actions.saveChart(figure.name, form)}
                  >
                    {save.forms[form]}
                  </button>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolling>
  );
}

const NONE: readonly RenderedFigure[] = [];

function titleOf({ name, spec }: RenderedFigure): string {
  const meta: unknown = spec.usermeta;
  const title = meta !== null && typeof meta === "object" && "title" in meta ? meta.title : undefined;
  return typeof title === "string" ? title : name;
}
