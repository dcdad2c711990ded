import * as v from "valibot";
import { Name } from "./plain-fields.ts";

/** Which groups of people are pooled as if each were a study of its own. */
export const Pooling = v.strictObject({
  by: v.pipe(Name, v.description("a stratum of this file, e.g. site: its groups are pooled")),
  covariate: v.optional(
    v.pipe(
      Name,
      v.description("another stratum of this file that is the same within each group, e.g. the type of site"),
    ),
  ),
});
