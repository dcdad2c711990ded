import type { ComponentChildren } from "preact";
import type { Shared } from "../context.ts";
import { Drawing } from "./drawing.tsx";

/**
 * A chart drawn beforehand, its data as a table, and its specification to take away. The drawing
 * carries its own text alternative; its text was escaped when it was drawn.
 */
export function Chart(props: { report: Shared; name: string; label: string; children: ComponentChildren }) {
  const figure = props.report.figures.get(props.name);
  if (figure === undefined) return null;
  const { page } = props.report.words;
  const file = `data:application/json;charset=utf-8,${encodeURIComponent(JSON.stringify(figure.spec, null, 2))}`;
  return (
    <figure class="chart">
      <Drawing label={page.chart(props.label)}>
        <div dangerouslySetInnerHTML={{ __html: figure.svg }} />
      </Drawing>
      <details class="aside">
        <summary>{page.data}</summary>
        {props.children}
        <p class="how">
          <a download={`${figure.name}.vl.json`} href={file}>
            {page.specification}
          </a>
        </p>
      </details>
    </figure>
  );
}
