import { stringify } from "yaml";
import type { Kit } from "../kit.ts";
import type { Plan } from "./plan.ts";

/** A kit of the study, and the file that describes it. */
export interface OtherKit {
  readonly id: string;
  readonly title: string;
  readonly file: string;
  /** The analytes that the plan has of it. */
  readonly analytes: readonly string[];
}

/** The kit that is planned for, and those of the comparisons' second sides; one title is one kit. */
export function kitsOfPlan(
  { analytes, comparisons }: Plan,
  kit: Kit | null,
): { readonly main: OtherKit; readonly others: readonly OtherKit[] } {
  const stated = comparisons.find(({ first }) => first.kit !== undefined)?.first;
  const title = kit?.title ?? stated?.title ?? comparisons[0]?.first.title ?? "The kit that is planned for";
  const main = {
    id: kit?.id ?? stated?.kit ?? shortName(title, "KIT-1"),
    title,
    file: "kit.yaml",
    analytes: analytes.map(({ id }) => id),
  };
  const others: OtherKit[] = [];
  for (const { second, analyte } of comparisons) {
    const at = others.findIndex((one) => one.title === second.title);
    const known = others[at];
    if (known !== undefined) {
      if (!known.analytes.includes(analyte))
        others[at] = { ...known, analytes: [...known.analytes, analyte] };
      continue;
    }
    const taken = [main.id, ...others.map(({ id }) => id)];
    const id = unused(second.kit ?? shortName(second.title, `KIT-${others.length + 2}`), taken);
    others.push({ id, title: second.title, file: `kit-${others.length + 2}.yaml`, analytes: [analyte] });
  }
  return { main, others };
}

/** A title as a short name; another one where nothing of it is left. */
function shortName(title: string, instead: string): string {
  const name = title.replaceAll(/[^A-Za-z0-9]+/g, "-").replaceAll(/^-+|-+$/g, "");
  return name === "" ? instead : name;
}

function unused(name: string, taken: readonly string[]): string {
  let free = name;
  for (let number = 2; taken.includes(free); number++) free = `${name}-${number}`;
  return free;
}

/** A kit file to fill in: lines and specimen types as the plan needs them, the rest as an example. */
export function skeletonKit({ specimens }: Plan, { id, title, analytes }: OtherKit): string {
  const kit = {
    format: "fourfold-kit/1",
    id,
    title,
    lines: [
      { id: "C", role: "control" },
      ...analytes.map((analyte, index) => ({ id: `T${index + 1}`, role: "test", analyte })),
    ],
    specimens: specimens.map(({ type }) => ({ type })),
    timed_from: "buffer_applied",
    reading_window: { from_minutes: 15, to_minutes: 20 },
    faint_line: "reactive",
    repeat: { max_attempts: 2 },
    source: { title: "to be filled in: the instructions for use" },
  };
  const remark =
    "# TO BE FILLED IN: everything in this file is to be copied from the kit's instructions for use. The lines,\n# the reading window, the faint line and the repeat are examples.\n";
  return `${remark}${stringify(kit, { lineWidth: 100 })}`;
}
