import { useEffect, useState } from "preact/hooks";
import { filesOfDrop } from "../../browser/dropped.ts";
import type { ViewProps } from "../view.ts";

/** Takes what is dropped anywhere on the page, and says so while it is held above it. */
export function DropPlace({ store, words }: ViewProps) {
  const [held, setHeld] = useState(false);
  useEffect(() => {
    const hasFiles = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;
    const over = (event: DragEvent) => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setHeld(true);
    };
    const leave = (event: DragEvent) => {
      if (event.relatedTarget === null) setHeld(false);
    };
    const drop = (event: DragEvent) => {
      setHeld(false);
      if (!hasFiles(event) || event.dataTransfer === null) return;
      event.preventDefault();
      void filesOfDrop(event.dataTransfer).then((files) => store.actions.openFiles(files));
    };
    document.addEventListener("dragover", over);
    document.addEventListener("dragleave", leave);
    document.addEventListener("drop", drop);
    return () => {
      document.removeEventListener("dragover", over);
      document.removeEventListener("dragleave", leave);
      document.removeEventListener("drop", drop);
    };
  }, [store]);
  return held ? (
    <div class="drop-here" aria-hidden="true">
      <p>{words.bench.drop}</p>
    </div>
  ) : null;
}
