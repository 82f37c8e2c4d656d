export { type ServeOptions, serve } from "./serve.ts";
