/**
 * One pure function per retired version of the evaluation document: it takes a document of its
 * version and returns one of the next. Old documents must always open, so entries are never removed;
 * a sample of each version stays among the tests.
 */
export type Migration = (older: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>;

export const CURRENT_VERSION = 1;

/** By the version they start from. Version 1 is the first: nothing to migrate yet. */
export const MIGRATIONS: Readonly<Record<number, Migration>> = {};
