import type { AlgorithmFile, FileKit } from "../../records/algorithm/algorithm-schema.ts";

/** The kits that the search for an analyte may choose from. */
export function searchedKits({ search, kits }: AlgorithmFile, analyte: string): FileKit[] {
  if (search === undefined) return [];
  const names = search.kits ?? kits.map(({ id }) => id);
  return kits.filter(({ id, analytes }) => names.includes(id) && Object.hasOwn(analytes, analyte));
}

/** Every two kits that the search may run on one person, by analyte; the same twice where it may repeat one. */
export function searchedTogether(file: AlgorithmFile) {
  if (file.search === undefined || file.search.most_tests < 2) return [];
  const { repeat } = file.search;
  return file.analytes.flatMap(({ id: analyte }) => {
    const kits = searchedKits(file, analyte).map(({ id }) => id);
    return kits.flatMap((first, at) =>
      kits.slice(repeat ? at : at + 1).map((second) => ({ analyte, first, second })),
    );
  });
}
