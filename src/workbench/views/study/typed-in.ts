import type { TypedCounts } from "../../study/typed-counts.ts";

/** What stands in the form, the browser having held each field against its limits. */
export function typedIn(form: FormData): TypedCounts {
  const text = (name: string) => String(form.get(name) ?? "").trim();
  const number = (name: string) => Number(text(name));
  const share = (name: string) => (text(name) === "" ? null : percent(text(name)));
  return {
    truePositives: number("truePositives"),
    falsePositives: number("falsePositives"),
    falseNegatives: number("falseNegatives"),
    trueNegatives: number("trueNegatives"),
    kit: text("kit"),
    condition: text("condition"),
    specimen: text("specimen"),
    reference: text("reference"),
    role: text("role") as TypedCounts["role"],
    selection: text("selection") as TypedCounts["selection"],
    sensitivityAtLeast: share("sensitivityAtLeast"),
    specificityAtLeast: share("specificityAtLeast"),
    interval: {
      method: text("method") as TypedCounts["interval"]["method"],
      level: percent(text("level")),
    },
  };
}

/** A percentage as a proportion, by its decimal digits: 97.5 gives 0.975 and not 0.9749999. */
function percent(text: string): number {
  return Number(`${text}e-2`);
}
