/** Pictures among flowing text: scenes to explain, and marks as they are. */
import type { Block } from "./flow.ts";
import type { FlowPiece } from "./flow-blocks.ts";
import { heightOf, widthOf } from "./geometry.ts";
import { presentScene } from "./present.ts";
import { type TextSetting, textBlock } from "./rich-text.ts";
import type { Words } from "./scene.ts";
import { shifted, shrunk } from "./shift.ts";

const SMALL_MM = 1.9;

/** A picture made to fit, lettering and all; it says that it is not for measuring. */
export function laySketch(
  block: Extract<Block, { kind: "sketch" }>,
  id: string,
  widthMm: number,
  setting: TextSetting,
): FlowPiece {
  const most = block.mostHighMm ?? 90;
  const placing = { view: block.scene.view, turn: block.turn ?? 0, origin: { right: 0, down: 0 }, scale: 1 } as const;
  const { groups, bounds } = presentScene(block.scene, { placing, ...setting });
  const scale = Math.min(1, widthMm / widthOf(bounds), most / heightOf(bounds));
  const words: Words =
    scale === 1 ? "Sketch, not for measuring" : `Sketch at ${Math.round(scale * 100)} %, not for measuring`;
  const label = textBlock(
    block.caption === undefined ? words : appended(block.caption, `. ${words}`),
    { heightMm: SMALL_MM },
    widthMm,
    setting,
  );
  const height = heightOf(bounds) * scale;
  const drawn = shifted(
    groups.flatMap((group) => group.marks),
    -bounds.left,
    -bounds.top,
  );
  const marks = shifted(shrunk(drawn, scale), (widthMm - widthOf(bounds) * scale) / 2, 0);
  return {
    id,
    role: "sketch",
    title: block.scene.title,
    heightMm: height + label.heightMm + 4,
    marks: [...marks, ...shifted(label.marks, 0, height + 1.5)],
  };
}

/** Higher than this, a picture leaves no room for its caption on its page. */
const PICTURE_MOST_MM = 215;

export function layPicture(
  { title, widthMm: wide, heightMm: high, groups, caption }: Extract<Block, { kind: "picture" }>,
  id: string,
  widthMm: number,
  setting: TextSetting,
): FlowPiece {
  const scale = Math.min(1, widthMm / wide, PICTURE_MOST_MM / high);
  const size = scale === 1 ? "True size" : `At ${Math.round(scale * 100)} % of true size`;
  const label = textBlock(
    caption === "" ? "" : caption === undefined ? size : appended(caption, ` ${size}.`),
    { heightMm: SMALL_MM },
    widthMm,
    setting,
  );
  const marks = shifted(
    shrunk(
      groups.flatMap((group) => group.marks),
      scale,
    ),
    (widthMm - wide * scale) / 2,
    0,
  );
  return {
    id,
    role: "picture",
    title,
    heightMm: high * scale + label.heightMm + 4,
    marks: [...marks, ...shifted(label.marks, 0, high * scale + 1.5)],
  };
}

function appended(words: Words, tail: string): Words {
  return typeof words === "string" ? words + tail : [...words, tail];
}
