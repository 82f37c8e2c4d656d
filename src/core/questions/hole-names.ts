/** Holes by the names that a person would use at the bench. */

/**
 * @example
 * nameOfHole("bridge-screws#2"); // "new screw hole 2"
 * nameOfHole("old-screws#3"); // "old screws 3"
 */
export function nameOfHole(id: string): string {
  const made = /^(bridge|tailpiece|unit-\d+)-(screws|posts|strings)#(\d+)$/.exec(id);
  if (!made) return id.replace("#", " ").replaceAll("-", " ");
  const [, piece = "", kind = "", number = ""] = made;
  const what = kind === "screws" ? "new screw hole" : kind === "posts" ? "post" : "new string hole";
  const of = piece === "tailpiece" || piece.startsWith("unit-") ? ` of ${piece.replace("-", " ")}` : "";
  return `${what} ${number}${of}`;
}
