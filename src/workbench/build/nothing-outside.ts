import type { Outside } from "../state/core.ts";
import { Desk } from "../work/desk.ts";

/** No browser at all: what the store sees while the first page is drawn into the file. */
export function nothingOutside(): Outside {
  return {
    desk: new Desk(
      () => null,
      () => Promise.resolve(),
    ),
    shelf: null,
    download() {},
    chooseFolder: undefined,
    picture: () => Promise.reject(new Error("no picture can be made here")),
  };
}
