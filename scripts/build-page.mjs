/**
 * Builds the page into dist/web: one script and one style sheet, plain files with names that stay, so that the page runs
 * from any static host, from the bench computer and opened from a disk. The writers of papers are a second script, which
 * is loaded when something is printed.
 */
import { createHash } from "node:crypto";
import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";
import solid from "vite-plugin-solid";

const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));
const FROM = join(ROOT, "src", "web");
const STATIC = ["index.html", "mark.svg", "manifest.webmanifest"];
const SCRIPTS = { page: "main.tsx", files: "late/files.ts", papers: "late/papers.ts" };
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

const into = process.argv[2] ?? join(ROOT, "dist", "web");
mkdirSync(into, { recursive: true });

for (const [name, entry] of Object.entries(SCRIPTS)) {
  await build({
    root: FROM,
    configFile: false,
    logLevel: "error",
    plugins: [solid(), lettering],
    // The build of the library that a browser takes, with nothing of Node.
    resolve: { alias: [{ find: /^pdfkit$/, replacement: PDFKIT }] },
    define: { "process.env.NODE_ENV": '"production"' },
    build: {
      outDir: into,
      emptyOutDir: false,
      target: "es2022",
      assetsInlineLimit: 0,
      cssCodeSplit: false,
      chunkSizeWarningLimit: 2000,
      rollupOptions: {
        input: join(FROM, entry),
        preserveEntrySignatures: "strict",
        output: {
          format: "iife",
          name: `fettle_${name}`,
          entryFileNames: `${name}.js`,
          assetFileNames: (asset) => (asset.names?.[0]?.endsWith(".css") ? `${name}.css` : "[name][extname]"),
        },
      },
    },
  });
}
for (const file of STATIC) copyFileSync(join(FROM, file), join(into, file));
copyFileSync(createRequire(import.meta.url).resolve(LETTERING), join(into, "lettering.woff2"));

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
