export { type AppOptions, createApp } from "./app.ts";
export { type ServeOptions, type Serving, serve } from "./serve.ts";
