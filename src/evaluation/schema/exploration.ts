import * as v from "valibot";

/** A value of the study's plan, or the name of a group of people. `null`: the plan says nothing there. */
const Chosen = v.nullable(v.union([v.string(), v.pipe(v.number(), v.finite()), v.boolean()]));

/** One choice of the study's plan that was changed to see what follows. */
const ChangeSchema = v.strictObject({
  path: v.pipe(
    v.string(),
    v.description("place in the study file, entries of lists by their id; or subset: which people"),
  ),
  planned: v.pipe(Chosen, v.description("what the study file says")),
  explored: v.pipe(Chosen, v.description("what this evaluation is of instead")),
});

/** What differs from the study's stated plan. The study of the document is the changed one. */
export const ExplorationSchema = v.strictObject({
  changes: v.pipe(v.array(ChangeSchema), v.minLength(1), v.description("in the order of the study file")),
});

export type Exploration = v.InferOutput<typeof ExplorationSchema>;
export type Change = Exploration["changes"][number];
export type Chosen = v.InferOutput<typeof Chosen>;
