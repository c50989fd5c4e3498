/** The version of the page, as on the Hang sheet; the crate's own. */
export const VERSION = "0.1.0";
