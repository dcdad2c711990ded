import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

/** What is being computed, how far it is, and the way to stop it. Its room is kept when nothing is. */
export function TaskLine({ store, words }: ViewProps) {
  const task = useStore(store, (state) => state.task);
  if (task === null) return <div class="task" />;
  const { bench } = words;
  const text = bench.progress(bench.steps[task.step], task.done, task.of);
  const share = task.done === null || task.of === null ? {} : { value: task.done, max: task.of };
  return (
    <div class="task">
      <label>
        <span class="task-text">{text}</span>
        <progress {...share} />
      </label>
      <button type="button" class="plain" onClick={() => store.actions.stop()}>
        {bench.stop}
      </button>
    </div>
  );
}
