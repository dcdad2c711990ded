import { inkVariables, LIGHT_INKS } from "../../figures/inks.ts";
import { DRAWN_STYLES } from "./styles.ts";

/**
 * A drawn figure as a file of its own: with the light inks and its styles inside, fit for a paper or
 * a slide. Charts made by `renderSpecification` carry their inks and need no such thing.
 *
 * @param svg the markup of one SVG element, as rendered for the page
 */
export function standaloneSvg(svg: string): string {
  const styles = `svg{${inkVariables(LIGHT_INKS)}}${DRAWN_STYLES}`;
  const named = svg.includes("xmlns=") ? svg : svg.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"');
  return named.replace(/^(<svg[^>]*>)/, `$1<style>${styles.replaceAll("\n", "")}</style>`);
}
