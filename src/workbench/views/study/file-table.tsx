import { count } from "../../../report/formats.ts";
import { workOf } from "../../state/state.ts";
import { plainName } from "../../study/folder.ts";
import { Scrolling } from "../scrolling.tsx";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

/** The files in the order of reading, those that are missing among them, then what the study file does not name. */
export function FileTable({ store, words }: ViewProps) {
  const { files } = useStore(store, workOf);
  const reading = useStore(store, (state) => state.reading);
  const { open } = words.study;
  const named = (reading?.named ?? []).map(plainName);
  const names = [...named, ...[...files.keys()].filter((name) => !named.includes(name))];
  const ledger = new Map((reading?.ledger ?? []).map((table) => [plainName(table.file), table]));
  const rowOf = (name: string) => {
    const bytes = files.get(name);
    const table = ledger.get(name);
    const aside = table === undefined ? null : table.rows - table.analysed;
    return (
      <tr key={name}>
        <th scope="row">
          {name}
          {reading !== null && !named.includes(name) && <span class="place">{open.notNamed}</span>}
        </th>
        <td class="number">{bytes === undefined ? open.missing : words.study.bytes(bytes.length)}</td>
        <td class="number">{table === undefined ? "" : count(table.rows)}</td>
        <td class="number">{table === undefined ? "" : count(table.analysed)}</td>
        <td class="number">{aside === null ? "" : count(aside)}</td>
        <td>
          {bytes !== undefined && (
            <button
              type="button"
              class="plain"
              aria-label={open.removeFile(name)}
              onClick={() => store.actions.removeFile(name)}
            >
              {open.remove}
            </button>
          )}
        </td>
      </tr>
    );
  };
  return (
    <Scrolling label={open.filesCaption}>
      <table>
        <thead>
          <tr>
            <th scope="col">{open.file}</th>
            <th scope="col" class="number">
              {open.size}
            </th>
            <th scope="col" class="number">
              {open.rows}
            </th>
            <th scope="col" class="number">
              {open.used}
            </th>
            <th scope="col" class="number">
              {open.setAside}
            </th>
            <th scope="col">
              <span class="unseen">{open.remove}</span>
            </th>
          </tr>
        </thead>
        <tbody>{names.map(rowOf)}</tbody>
      </table>
    </Scrolling>
  );
}
