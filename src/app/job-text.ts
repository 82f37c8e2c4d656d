/** A job document as YAML that a person can read and go on with. */
import { Document, isCollection, isMap, isScalar, isSeq, type Node } from "yaml";

/** Longer mappings are easier to read one value to a line. */
const LONGEST_LINE = 110;

/** The document as YAML; `about` stands above it as a comment. */
export function jobText(data: Readonly<Record<string, unknown>>, about: string): string {
  const document = new Document(data);
  document.commentBefore = about
    .split("\n")
    .map((line) => ` ${line}`)
    .join("\n");
  const { contents } = document;
  if (isMap(contents)) {
    for (const [index, section] of contents.items.entries()) {
      if (!isCollection(section.value)) continue;
      if (index > 0 && typeof section.key === "object" && section.key !== null)
        Object.assign(section.key, { spaceBefore: true });
      layOut(section.value, index === 0);
    }
  }
  return `${document.toString({ lineWidth: 0 }).trimEnd()}\n`;
}

/** Small collections of plain values stand on one line, as one writes them by hand. */
export function layOut(node: Node, flow = false): void {
  if (!isCollection(node)) return;
  if (flow) node.flow = true;
  for (const item of node.items) {
    const value = isSeq(node) ? item : (item as { value?: unknown }).value;
    if (!isCollection(value)) continue;
    if (isFlat(value) && JSON.stringify(value).length < LONGEST_LINE) value.flow = true;
    else layOut(value);
  }
}

function isFlat(node: Node): boolean {
  if (isSeq(node)) return node.items.every((item) => isScalar(item));
  return isMap(node) && node.items.every(({ value }) => isScalar(value) || (isSeq(value) && isFlat(value)));
}
