/** YAML as this project reads it: dates and `yes` stay text. */
export const YAML = { version: "1.2", schema: "core" } as const;
