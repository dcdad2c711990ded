/** The name of the algorithm file where only its folder is given. */
export const ALGORITHM_FILE = "algorithm.yaml";
