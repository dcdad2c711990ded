import { LIGHT_INKS } from "./inks.ts";

const SHAPES = ["circle", "diamond", "square", "triangle-up"] as const;
const { muted, deep, pale, paper } = LIGHT_INKS;

/** The mark of a study of the first kind, the second and so on: full, then hollow, then other shapes. */
export function studyLook(at: number) {
  const hollow = at % 2 === 1;
  return {
    shape: SHAPES[Math.floor(at / 2) % SHAPES.length] ?? "circle",
    fill: hollow ? paper : pale,
    stroke: hollow ? muted : deep,
    strokeWidth: 1.1,
    opacity: 1,
  };
}

/** Studies by kind, in the order of the kinds, those of none last; all as one where there are no kinds. */
export function byKind<Study extends { readonly kind: string | null }>(
  studies: readonly Study[],
  kinds: readonly string[],
): { readonly at: number; readonly mine: readonly Study[] }[] {
  const groups = kinds.length === 0 ? [null] : [...kinds, null];
  return groups
    .map((kind, at) => ({
      at,
      mine: studies.filter((study) => kinds.length === 0 || study.kind === kind),
    }))
    .filter(({ mine }) => mine.length > 0);
}
