import type { InputFile } from "../../../records/model.ts";
import { folderOf, withFiles } from "../../study/folder.ts";
import { type Taken, takeStudy } from "../../study/root.ts";
import { type TypedCounts, typedStudy } from "../../study/typed-counts.ts";
import type { Core } from "../core.ts";
import { hasStudy, workOf } from "../state.ts";

const ARCHIVE = /\.zip$/i;

/** Ways to begin. */
export function openActions(core: Core) {
  const { steps } = core.words;
  return {
    /** Opens files that were chosen or dropped: a study folder, a ZIP archive of one, or single files. */
    async openFiles(opened: readonly InputFile[]): Promise<void> {
      const single = opened.length === 1 ? opened[0] : undefined;
      if (single === undefined || !ARCHIVE.test(single.name)) {
        openTaken(core, takeStudy(opened));
        return;
      }
      const unpacked = await core.run("unpack", single.bytes, "packing");
      if (unpacked === null) return;
      if (!unpacked.ok) {
        core.set({ trouble: { kind: "no_archive", detail: single.name } });
        return;
      }
      const title = single.name.replace(ARCHIVE, "");
      openTaken(
        core,
        takeStudy(unpacked.files.map(({ name, bytes }) => ({ name: `${title}/${name}`, bytes }))),
      );
    },
    /** Opens the invented demonstration study. */
    async openDemo(): Promise<void> {
      const files = await core.run("demoStudy", null, "computing");
      if (files !== null) openStudy(core, steps.openedDemo, { title: "demo", files });
    },
    /** Makes a study of four counts typed by hand. */
    typeCounts(typed: TypedCounts): void {
      openStudy(core, steps.typed, { title: "typed-counts", files: typedStudy(typed) });
    },
  };
}

/** A whole study takes the place of the one before it. */
function openStudy(
  core: Core,
  what: string,
  study: { readonly title: string; readonly files: readonly InputFile[] },
): void {
  core.set({ view: "report", shown: null, reading: null, trouble: null });
  core.step(what, { title: study.title, files: folderOf(study.files), explored: [] });
}

function openTaken(core: Core, { title, whole, files, leftOut }: Taken): void {
  const { bench, steps } = core.words;
  if (files.length === 0) {
    core.set({ trouble: { kind: "nothing_readable", detail: bench.listed(leftOut) } });
  } else if (whole) {
    const named = title ?? "study";
    openStudy(core, steps.opened(named), { title: named, files });
  } else {
    const work = workOf(core.get());
    const names = files.map(({ name }) => name);
    const named = hasStudy(core.get()) ? {} : { title: title ?? work.title };
    core.set({ view: "study", trouble: null });
    core.step(steps.added(names), { ...named, files: withFiles(work.files, files) });
  }
}
