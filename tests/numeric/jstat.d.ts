/** The few functions of jstat that serve as a second opinion. */
declare module "jstat" {
  const library: {
    readonly jStat: {
      readonly beta: {
        cdf(x: number, a: number, b: number): number;
        inv(p: number, a: number, b: number): number;
      };
      readonly gamma: { inv(p: number, shape: number, scale: number): number };
      readonly studentt: { cdf(t: number, df: number): number; inv(p: number, df: number): number };
      readonly normal: { inv(p: number, mean: number, deviation: number): number };
      readonly hypgeom: { pdf(x: number, total: number, white: number, drawn: number): number };
      readonly chisquare: { cdf(x: number, df: number): number; inv(p: number, df: number): number };
      gammaln(x: number): number;
    };
  };
  export default library;
}
