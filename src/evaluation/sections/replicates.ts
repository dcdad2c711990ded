/** How often items or clusters are drawn again for the report: its limits are then good to about two digits. */
export const REPLICATES = 2000;
