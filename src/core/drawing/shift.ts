/** Marks moved about the page, or shrunk whole for a sketch. */
import type { PagePoint } from "./geometry.ts";
import type { Mark, Segment } from "./marks.ts";

export function shifted(marks: readonly Mark[], right: number, down: number): Mark[] {
  const move = (p: PagePoint): PagePoint => ({ right: p.right + right, down: p.down + down });
  return marks.map((mark): Mark => {
    switch (mark.kind) {
      case "text":
        return { ...mark, at: move(mark.at) };
      case "circle":
        return { ...mark, centre: move(mark.centre) };
      case "path":
        return { ...mark, path: mark.path.map((segment) => movedSegment(segment, move)) };
      default:
        return mark satisfies never;
    }
  });
}

/** Places, radii and lettering times `factor`; lines keep their widths. */
export function shrunk(marks: readonly Mark[], factor: number): Mark[] {
  const move = (p: PagePoint): PagePoint => ({ right: p.right * factor, down: p.down * factor });
  return marks.map((mark): Mark => {
    switch (mark.kind) {
      case "text":
        return { ...mark, at: move(mark.at), heightMm: mark.heightMm * factor };
      case "circle":
        return { ...mark, centre: move(mark.centre), radiusMm: mark.radiusMm * factor };
      case "path":
        return { ...mark, path: mark.path.map((segment) => movedSegment(segment, move)) };
      default:
        return mark satisfies never;
    }
  });
}

function movedSegment(segment: Segment, move: (p: PagePoint) => PagePoint): Segment {
  switch (segment.to) {
    case "close":
      return segment;
    case "curve":
      return { ...segment, first: move(segment.first), second: move(segment.second), at: move(segment.at) };
    default:
      return { ...segment, at: move(segment.at) };
  }
}
