/**
 * Builds the page into dist/web: a script for the first sight, one for every sheet that is opened later, and one style
 * sheet, all plain files, so that the page runs from any static host, from the bench computer and opened from a disk.
 */
import { createHash } from "node:crypto";
import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { transformAsync } from "@babel/core";
import dynamicImport from "@babel/plugin-transform-dynamic-import";
import systemParts from "@babel/plugin-transform-modules-systemjs";
import { build } from "vite";
import solid from "vite-plugin-solid";

const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));
const FROM = join(ROOT, "src", "web");
const STATIC = ["index.html", "mark.svg", "manifest.webmanifest"];
const LOADER = "systemjs/dist/s.min.js";
const PDFKIT = join(ROOT, "node_modules", "pdfkit", "js", "pdfkit.standalone.js");
const LETTERING = "@fontsource/dejavu-sans/files/dejavu-sans-latin-400-normal.woff2";

/** The two weights of the papers' typeface as TrueType in the script itself: a page opened from a disk may fetch nothing. */
const lettering = {
  name: "lettering",
  resolveId: (id) => (id === "virtual:lettering" ? "\0lettering" : undefined),
  async load(id) {
    if (id !== "\0lettering") return undefined;
    const { installedFonts } = await import(pathToFileURL(join(dirname(into), "papers", "font-node.js")).href);
    const { regular, bold } = installedFonts();
    const text = (bytes) => JSON.stringify(Buffer.from(bytes).toString("base64"));
    return `export const REGULAR = ${text(regular)};\nexport const BOLD = ${text(bold)};`;
  },
};

/** A page opened from a disk may load scripts, but not modules: every part becomes a script that the loader registers. */
const asScripts = {
  name: "as-scripts",
  enforce: "post",
  generateBundle: {
    order: "post",
    async handler(_, bundle) {
      for (const part of Object.values(bundle)) {
        if (part.type !== "chunk") continue;
        const made = await transformAsync(part.code, {
          babelrc: false,
          configFile: false,
          compact: true,
          comments: false,
          plugins: [dynamicImport.default, systemParts.default],
        });
        part.code = made.code;
      }
    },
  },
};

const into = process.argv[2] ?? join(ROOT, "dist", "web");
mkdirSync(into, { recursive: true });

await build({
  root: FROM,
  // Found from the page, whatever stands before its name: a static host's folder, or a disk.
  base: "./",
  configFile: false,
  logLevel: "error",
  plugins: [solid(), lettering, asScripts],
  // The build of the library that a browser takes, with nothing of Node.
  resolve: { alias: [{ find: /^pdfkit$/, replacement: PDFKIT }] },
  define: { "process.env.NODE_ENV": '"production"' },
  build: {
    outDir: into,
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    modulePreload: false,
    chunkSizeWarningLimit: 2000,
    rollupOptions: {
      input: join(FROM, "main.tsx"),
      treeshake: { moduleSideEffects: (id) => !/\/src\/(core|data)\//.test(id) },
      output: {
        format: "es",
        entryFileNames: "page.js",
        chunkFileNames: "part-[name]-[hash].js",
        assetFileNames: (asset) => (asset.names?.[0]?.endsWith(".css") ? "page.css" : "[name][extname]"),
      },
    },
  },
});
for (const file of STATIC) copyFileSync(join(FROM, file), join(into, file));

// What the first script leans on is asked for with it, not after it.
const html = readFileSync(join(into, "index.html"), "utf8");
const hints = leanedOn("page.js").map((file) => `    <link rel="preload" as="script" href="./${file}" />\n`);
writeFileSync(join(into, "index.html"), html.replace('    <script defer src="./loader.js">', `${hints.join("")}$&`));

function leanedOn(script, known = new Set()) {
  const [, list = ""] = /^System\.register\(\[([^\]]*)\]/.exec(readFileSync(join(into, script), "utf8")) ?? [];
  for (const [, file] of list.matchAll(/"\.\/([^"]+)"/g)) {
    if (known.has(file)) continue;
    known.add(file);
    leanedOn(file, known);
  }
  return [...known];
}

const { resolve } = createRequire(import.meta.url);
copyFileSync(resolve(LETTERING), join(into, "lettering.woff2"));
// Without its last line, which names a file that is not here.
writeFileSync(join(into, "loader.js"), readFileSync(resolve(LOADER), "utf8").replace(/\n\/\/# sourceMappingURL.*/, ""));

// The service worker keeps exactly these files, under a name that changes with any of them.
const files = readdirSync(into)
  .filter((file) => file !== "service-worker.js")
  .sort();
const hash = createHash("sha256");
for (const file of files) hash.update(file).update(readFileSync(join(into, file)));
const filled = {
  '"VERSION"': JSON.stringify(hash.digest("hex").slice(0, 16)),
  'JSON.parse("FILES")': JSON.stringify(files.map((file) => `./${file}`)),
};
let worker = readFileSync(join(FROM, "service-worker.js"), "utf8");
for (const [place, value] of Object.entries(filled)) {
  if (!worker.includes(place)) throw new Error(`service-worker.js has no ${place}`);
  worker = worker.replace(place, value);
}
writeFileSync(join(into, "service-worker.js"), worker);
