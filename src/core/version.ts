/** The version of Fourfold, as in package.json (a test holds the two together). */
export const SOFTWARE_VERSION = "0.1.0";
