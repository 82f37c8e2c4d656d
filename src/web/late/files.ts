/** Reading and writing job files: loaded when a file is opened or saved. */
export { parse, stringify } from "yaml";
