import { type Note, note } from "../../../core/note.ts";
import type { Pooling } from "../document.ts";
import { MOST_LEFT_OUT } from "./models.ts";

type Parts = Pick<Pooling, "studies" | "influence" | "covariate" | "file">;

/** What a reader of the whole document must know besides the warnings of the answer. */
export function notesOn({ studies, influence, covariate, file }: Parts): Note[] {
  const oneSided = studies.filter(
    ({ sensitivity, specificity }) => sensitivity.total === 0 || specificity.total === 0,
  );
  const silent = file.covariate === undefined ? [] : studies.filter(({ level }) => level === null);
  return [
    ...oneSided.map(({ study, sensitivity }) => {
      const kind = sensitivity.total === 0 ? "without" : "with";
      return note("one_kind", "studies", `${study} tells of people ${kind} the condition alone`);
    }),
    ...silent.map(({ study }) =>
      note("no_level", "covariate", `${study} does not say ${file.covariate}: left out of that comparison`),
    ),
    ...(influence === null
      ? [note("too_many", "influence", `more than ${MOST_LEFT_OUT} studies: none was left out in turn`)]
      : []),
    ...(file.covariate !== undefined && covariate === null
      ? [note("no_levels", "covariate", `no study says ${file.covariate}`)]
      : []),
  ];
}
