/** The name of the study file within a study folder. */
export const STUDY_FILE = "study.yaml";
