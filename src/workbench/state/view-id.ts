/** The parts of the workbench. */
export type ViewId = "study" | "report" | "plan" | "algorithms" | "methods" | "save";
