import type { PageFile } from "../../../report/files-beside.ts";
import { filesOf } from "../../study/folder.ts";
import { type ChartForm, chartFiles } from "../charts.ts";
import type { Core, Saved, WriteInto } from "../core.ts";
import { workOf } from "../state.ts";

/** Hands the user what was made. Everything is written by the worker from the present work. */
export function saveActions(core: Core) {
  const { chooseFolder, picture } = core.outside;
  const figures = () => core.get().shown?.figures ?? [];
  return {
    /** The report, one HTML file: the bytes of the command line's. */
    saveReport: () => handOne(core, "report.html"),
    /** The evaluation document. */
    saveEvaluation: () => handOne(core, "evaluation.json"),
    /** The tables as CSV, in one archive. */
    async saveTables(): Promise<void> {
      await pack(core, "-tables", below(await reportFolder(core), "tables/"));
    },
    /** All charts, each as SVG, PNG and Vega-Lite, in one archive. */
    async saveCharts(): Promise<void> {
      await pack(core, "-charts", await chartFiles(figures(), picture));
    },
    /** One chart in one form. */
    async saveChart(name: string, form: ChartForm): Promise<void> {
      const files = await chartFiles(
        figures().filter((figure) => figure.name === name),
        picture,
      );
      const found = files.find((file) => file.name === `${name}.${form}`);
      if (found !== undefined) hand(core, found);
    },
    /** The study folder, in one archive that can be opened again. */
    saveStudy: () => pack(core, "", studyFiles(core)),
    /** Study folder and report folder, written into a folder that the user chooses. */
    saveInto: () => (chooseFolder === undefined ? Promise.resolve() : saveInto(core, chooseFolder)),
    canSaveInto: (): boolean => chooseFolder !== undefined,
  };
}

function hand(core: Core, file: Saved): void {
  core.outside.download(file);
  core.set({ announced: core.words.save.saved(file.name) });
}

async function handOne(core: Core, name: string): Promise<void> {
  const found = (await reportFolder(core)).find((file) => file.name === name);
  if (found !== undefined) hand(core, found);
}

async function pack(core: Core, name: string, files: readonly Saved[]): Promise<void> {
  if (files.length === 0) return;
  const entries = files.map((file) => ({ name: file.name, bytes: bytesOf(file.content) }));
  const content = await core.run("pack", entries, "packing");
  if (content !== null) hand(core, { name: `${workOf(core.get()).title}${name}.zip`, content });
}

async function reportFolder(core: Core): Promise<readonly PageFile[]> {
  const { files, explored } = workOf(core.get());
  return (await core.run("reportFolder", { files: filesOf(files), explored }, "writing")) ?? [];
}

async function saveInto(core: Core, chooseFolder: () => Promise<WriteInto | null>): Promise<void> {
  try {
    // Asked first: a browser forgets soon that it was the user who wanted it.
    const write = await chooseFolder();
    if (write === null) return;
    const made = await reportFolder(core);
    const beside = made.map(({ name, content }) => ({ name: `fourfold-report/${name}`, content }));
    const files = [...studyFiles(core), ...beside];
    await write(files);
    core.set({ announced: core.words.save.savedInto(files.length) });
  } catch (error) {
    core.set({ trouble: { kind: "not_saved", detail: String(error) } });
  }
}

function studyFiles(core: Core): Saved[] {
  return filesOf(workOf(core.get()).files).map(({ name, bytes }) => ({ name, content: bytes }));
}

function below(files: readonly PageFile[], folder: string): Saved[] {
  return files
    .filter(({ name }) => name.startsWith(folder))
    .map(({ name, content }) => ({ name: name.slice(folder.length), content }));
}

function bytesOf(content: string | Uint8Array): Uint8Array {
  return typeof content === "string" ? new TextEncoder().encode(content) : content;
}
