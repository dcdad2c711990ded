import type { Store } from "../../state/store.ts";

/** Keys for the whole page; where a text is being typed, undo stays the text's own. */
export function onKeys(store: Store): () => void {
  const pressed = (event: KeyboardEvent): void => {
    const control = event.ctrlKey || event.metaKey;
    const key = event.key.toLowerCase();
    if (key === "escape") store.actions.stop();
    if (!control || event.altKey) return;
    if (key === "s") {
      event.preventDefault();
      store.actions.show("save");
    }
    if (isTyping(event.target)) return;
    const back = key === "z" && !event.shiftKey;
    const forth = (key === "z" && event.shiftKey) || key === "y";
    if (!back && !forth) return;
    event.preventDefault();
    if (back) store.actions.undo();
    else store.actions.redo();
  };
  document.addEventListener("keydown", pressed);
  return () => document.removeEventListener("keydown", pressed);
}

const TEXT_INPUTS = /^(text|search|number|email|url|tel|password|date)$/;

function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLTextAreaElement) return true;
  return target instanceof HTMLInputElement && TEXT_INPUTS.test(target.type);
}
