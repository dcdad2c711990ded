/** The name of the pooling file where only its folder is given. */
export const POOL_FILE = "pool.yaml";
