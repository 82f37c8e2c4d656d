/**
 * Refuses a Node that is too old, in words. Imported first and alone, in old syntax, so that an old Node can still read
 * it and say so.
 */
const OLDEST = 20;

if (Number.parseInt(process.versions.node, 10) < OLDEST) {
  console.error(
    "fettle: this needs Node " +
      OLDEST +
      " or newer, and this is Node " +
      process.versions.node +
      ".\nInstall a newer Node (https://nodejs.org, or your system's package manager) and try again.",
  );
  process.exit(1);
}
