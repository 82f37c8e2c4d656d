/** The style sheet is built beside the script. */
declare module "*.css";

/** The papers' typeface, TrueType in base64; put in by the build. */
declare module "virtual:lettering" {
  export const REGULAR: string;
  export const BOLD: string;
}
