/**
 * Why a value is absent, or what to mind when reading it.
 * `code` is stable and machine-readable; `path` names the field of the values it speaks of.
 */
export interface Note {
  readonly code: string;
  readonly path: string;
  readonly message: string;
}

export function note(code: string, path: string, message: string): Note {
  return { code, path, message };
}
