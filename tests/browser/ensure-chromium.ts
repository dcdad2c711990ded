import { spawnSync } from "node:child_process";
import { chromiumPath } from "./chromium.ts";

/**
 * Run before the tests: where no Chromium is found, it is installed from the system's packages
 * (Debian and its kin). Elsewhere it says what to do and stops, rather than skip the browser tests.
 */
function install(): void {
  const asRoot = process.getuid?.() === 0;
  const apt = (words: string[]) =>
    spawnSync(asRoot ? "apt-get" : "sudo", asRoot ? words : ["-n", "apt-get", ...words], {
      stdio: "inherit",
    });
  console.error("No Chromium found: installing it from the system's packages …");
  apt(["update", "-qq"]);
  apt(["install", "-y", "-qq", "--no-install-recommends", "chromium", "fonts-dejavu-core"]);
}

if (chromiumPath() === null) install();
if (chromiumPath() === null) {
  console.error(
    "The browser tests need Chromium: install it, or name its program in the environment variable CHROMIUM.",
  );
  process.exit(1);
}
