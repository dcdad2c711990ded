/** Nothing may be fetched, run, framed or sent: the page is all there is. */
export const POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";
