import { useState } from "preact/hooks";
import type { Method } from "../../../core/method.ts";
import { catalogue } from "../../../methods/index.ts";
import type { ViewProps } from "../view.ts";

/** The catalogue by area, each method with the question that it answers. */
export function MethodList({ store, words }: ViewProps) {
  const [wanted, find] = useState("");
  const { methods } = words;
  const found = catalogue.filter((method) => isAbout(method, wanted));
  return (
    <main class="methods">
      <p class="over">{methods.over}</p>
      <h1>{methods.heading}</h1>
      <p class="sub">{methods.sub}</p>
      <div class="method-find">
        <label class="field">
          {methods.find}
          <input
            type="search"
            value={wanted}
            onInput={(event) => find(event.currentTarget.value)}
            autocomplete="off"
          />
        </label>
        <p class="how" role="status">
          {methods.found(found.length)}
        </p>
      </div>
      {areasOf(found).map(([area, inArea]) => (
        <section key={area}>
          <h2>{methods.areas[area] ?? area}</h2>
          <ul class="method-list">
            {inArea.map(({ id, title, question }) => (
              <li key={id}>
                <button type="button" class="plain" onClick={() => store.actions.openMethod(id)}>
                  {title}
                </button>
                <span>{question}</span>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </main>
  );
}

/** Whether every word looked for stands in what the catalogue says of a method. */
function isAbout({ id, title, question }: Method, wanted: string): boolean {
  const said = `${id} ${title} ${question}`.toLowerCase();
  return wanted
    .toLowerCase()
    .split(/\s+/)
    .every((word) => said.includes(word));
}

function areasOf(methods: readonly Method[]): [string, Method[]][] {
  const areas = new Map<string, Method[]>();
  for (const method of methods) {
    const area = method.id.split(".")[0] ?? "";
    areas.set(area, [...(areas.get(area) ?? []), method]);
  }
  return [...areas];
}
