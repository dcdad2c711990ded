import type { Outside } from "../state/core.ts";
import type { Shelf } from "../state/storage.ts";
import { Desk, type WorkerLike } from "../work/desk.ts";
import { pictureOf } from "./picture.ts";
import { download, folderChooser } from "./save.ts";

/**
 * The browser, as the store sees it.
 * @param program address of this program's own text: the worker runs the same
 */
export function browserOutside(program: string): Outside {
  return {
    desk: new Desk(() => startWorker(program), pause),
    shelf: shelfHere(),
    download,
    chooseFolder: folderChooser(),
    picture: pictureOf,
  };
}

function startWorker(program: string): WorkerLike | null {
  try {
    return new Worker(program) as WorkerLike;
  } catch {
    return null;
  }
}

const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** A browser may refuse storage to a page, even the question. */
function shelfHere(): Shelf | null {
  try {
    return globalThis.localStorage;
  } catch {
    return null;
  }
}
