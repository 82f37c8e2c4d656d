/** Hands a file to the person, as a browser does. */
export function offer(name: string, content: Uint8Array | string): void {
  const blob = new Blob([content as BlobPart], { type: typeOf(name) });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  // The browser has taken hold of it by then.
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

function typeOf(name: string): string {
  if (name.endsWith(".pdf")) return "application/pdf";
  if (name.endsWith(".svg")) return "image/svg+xml";
  if (name.endsWith(".zip")) return "application/zip";
  return name.endsWith(".json") ? "application/json" : "text/plain";
}
