/** A publication or document that a method or a worked example names. */
export interface Source {
  readonly citation: string;
  /**
   * `true`: the formula or the numbers used here were read in the document itself. `false`: they were
   * recalled from memory; the numbers are recomputed, the wording of the document was not checked.
   */
  readonly seen: boolean;
}

export const recalled = (citation: string): Source => ({ citation, seen: false });
export const read = (citation: string): Source => ({ citation, seen: true });
