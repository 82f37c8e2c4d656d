/** The style sheet is built beside the script. */
declare module "*.css";
