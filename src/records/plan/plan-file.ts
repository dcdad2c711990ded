/** The name of the plan file where only its folder is given. */
export const PLAN_FILE = "plan.yaml";
