/** A planted fault: the drawing of a page mirrored left to right, its lettering and its furniture left upright. */
import type { Mark, Page } from "../../src/core/drawing/index.ts";

const FURNITURE = new Set(["rule", "frame", "view", "print-check", "title-block", "table", "callout", "notes", "key"]);

export function mirrored(page: Page): Page {
  const turned = <P extends { readonly right: number }>(place: P): P => ({
    ...place,
    right: page.widthMm - place.right,
  });
  const flip = (mark: Mark): Mark => {
    if (mark.kind === "text") return { ...mark, at: turned(mark.at) };
    if (mark.kind === "circle") return { ...mark, centre: turned(mark.centre) };
    const path = mark.path.map((one) => {
      if (one.to === "close") return one;
      if (one.to === "curve")
        return { ...one, first: turned(one.first), second: turned(one.second), at: turned(one.at) };
      return { ...one, at: turned(one.at) };
    });
    return { ...mark, path };
  };
  return {
    ...page,
    groups: page.groups.map((group) =>
      FURNITURE.has(group.role) ? group : { ...group, marks: group.marks.map(flip) },
    ),
  };
}
