import { FIGURE_STYLES } from "./figures/styles.ts";
import { PAGE_STYLES } from "./styles/page.ts";
import { printStyles } from "./styles/print.ts";
import { TABLE_STYLES } from "./styles/tables.ts";

/**
 * Everything the page needs, for screen and print. No font, no image, nothing from outside.
 *
 * @param running the line at the head of every printed page
 * @param foot    the line at its foot
 */
export function reportStyles(running: string, foot: string): string {
  return [FIGURE_STYLES, PAGE_STYLES, TABLE_STYLES, printStyles(running, foot)].join("\n");
}
