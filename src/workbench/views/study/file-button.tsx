import type { InputFile } from "../../../records/model.ts";
import { filesOfList } from "../../browser/dropped.ts";

interface Props {
  readonly label: string;
  /** Whether a whole folder is chosen. */
  readonly folder?: boolean;
  readonly open: (files: readonly InputFile[]) => void;
}

/** Known to every browser, not yet to the types. */
const WHOLE_FOLDER = { webkitdirectory: true };

/** A button that lets the user choose files or a folder. */
export function FileButton({ label, folder = false, open }: Props) {
  const chosen = async (input: HTMLInputElement): Promise<void> => {
    const files = await filesOfList(input.files ?? []);
    // So that choosing the same file again, changed meanwhile, is a choice too.
    input.value = "";
    if (files.length > 0) open(files);
  };
  return (
    <label class="button">
      <input
        type="file"
        class="unseen"
        multiple
        {...(folder ? WHOLE_FOLDER : {})}
        onChange={(event) => void chosen(event.currentTarget)}
      />
      {label}
    </label>
  );
}
