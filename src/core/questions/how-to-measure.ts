/**
 * How each value is best read: tool, place, method, minutes. One table, so that a missing value, the weakest value of
 * a verdict and the traveller all ask for it in the same words. Tools' doubts: see core/quantity/tools.ts.
 * All of it common practice, no source.
 */
import { type Quantity, standardUncertainty, toolNamed } from "../quantity/index.ts";
import type { NextReading } from "../verdict/index.ts";

interface Way {
  /** Path with `*` for one step; the first that fits is used. */
  readonly path: string;
  readonly what: string;
  readonly tool: string;
  readonly how: string;
  readonly minutes: number;
}

// biome-ignore format: a table, one way a row
const WAYS: readonly Way[] = [
  { path: "scaleLine.u", what: "where the scale line falls on the body", tool: "transfer", how: "With the neck bolted and the outer strings tight, hold a story stick on the nut and fret 12, turn it end for end on fret 12, and mark the body", minutes: 10 },
  { path: "neck.scaleLength*", what: "the scale length", tool: "steel rule", how: "Measure from the nut's face to the middle of fret 12 and double it", minutes: 3 },
  { path: "neck.fretReadings*", what: "where the frets stand on the rule", tool: "steel rule", how: "Lay the rule along the centre line once and do not move it; read it at the crown of every fret on your list", minutes: 4 },
  { path: "neck.nutToFret12", what: "from the nut's face to fret 12", tool: "steel rule", how: "Lay the rule along the centre line, end on the nut's face, read at the crown of fret 12", minutes: 2 },
  { path: "neck.fret12ToHeelEnd", what: "from fret 12 to the end of the heel", tool: "steel rule", how: "Lay the rule along the centre line, read fret 12's crown and the heel's end from one placing", minutes: 2 },
  { path: "neck.nutToHeelEnd", what: "from the nut's face to the end of the heel", tool: "steel rule", how: "Lay the rule along the centre line of the neck", minutes: 2 },
  { path: "neck.heelGap", what: "the gap between heel and end wall", tool: "feeler", how: "Neck bolted, slide feelers between the heel's end and the wall of the pocket", minutes: 2 },
  { path: "neck.nutWidth", what: "the width of the nut", tool: "calliper", how: "Across the neck, at the nut", minutes: 1 },
  { path: "neck.nutSpread", what: "the outer strings at the nut, centre to centre", tool: "calliper", how: "Outside to outside of the outer strings, less half of each gauge", minutes: 2 },
  { path: "neck.nutY*", what: "where each string crosses the nut", tool: "calliper", how: "From the centre line to the middle of each slot, with a minus on the side of y < 0", minutes: 4 },
  { path: "neck.nutSlots*", what: "the width of a nut slot", tool: "feeler", how: "The largest feeler or string of known gauge that slides without force", minutes: 2 },
  { path: "neck.plane.*", what: "the plane of the frets above the top", tool: "straightedge", how: "Lay a straightedge on the frets past the heel and measure down to the top at two places", minutes: 5 },
  { path: "neck.straightedge*", what: "the plane of the frets above the top", tool: "straightedge", how: "Lay a straightedge on the frets past the heel and measure down to the top at two places", minutes: 5 },
  { path: "neck.heelThickness", what: "the thickness of the heel", tool: "calliper", how: "Neck off: from the face of the board to the bottom of the heel", minutes: 2 },
  { path: "neck.fretHeight", what: "the height of the frets", tool: "calliper", how: "Depth rod between two frets near the heel", minutes: 2 },
  { path: "neck.radius*", what: "the radius of the fingerboard", tool: "radius gauge", how: "Hold gauges across the board until no light shows", minutes: 2 },
  { path: "neck.boardWidthAtLastFret", what: "the width of the board at the last fret", tool: "calliper", how: "Edge to edge, square across, at the last fret", minutes: 1 },
  { path: "neck.pocketPlay", what: "the heel's play in its pocket", tool: "feeler", how: "Heel pushed to one wall of the pocket: the largest feeler that passes at the other", minutes: 2 },
  { path: "neck.relief", what: "the relief", tool: "feeler", how: "Outer string held at the first and last fret: the largest feeler that passes at fret 7", minutes: 2 },
  { path: "neck.freeLength", what: "from the nut to where the neck becomes stiff", tool: "steel rule", how: "To 8 mm inside the mouth of the pocket", minutes: 1 },
  { path: "neck.frets", what: "the number of frets", tool: "eye", how: "Count them", minutes: 1 },
  { path: "neck.squareFret", what: "the fret that stands square to the centre line", tool: "square", how: "Hold a square along the centre line and find it", minutes: 2 },
  { path: "body.thickness", what: "the thickness of the body", tool: "calliper", how: "At the edge near the bridge, finish included", minutes: 1 },
  { path: "body.pocket.*", what: "the neck pocket", tool: "calliper", how: "Neck off: depth rod from the top, length and width inside to inside", minutes: 3 },
  { path: "body.holes.*.u", what: "how far back the old holes stand", tool: "plate laid on", how: "Lay the old plate back on its holes and read its edge; else a rule from the end wall, or from fret 12, to the hole's near and far edge, halved", minutes: 4 },
  { path: "body.holes.*.y*", what: "how far the old holes stand from the centre line", tool: "calliper", how: "From the drawn centre line to the hole's near and far edge, halved", minutes: 3 },
  { path: "body.holes.*.diameter", what: "the diameter of the old holes", tool: "drill shank", how: "The largest drill shank that goes in without force", minutes: 2 },
  { path: "body.holes.*.depth", what: "the depth of the old holes", tool: "calliper", how: "Depth rod into the hole", minutes: 2 },
  { path: "body.cavities.*.angle", what: "the slant of the cavity", tool: "protractor", how: "Its edge along the centre line, the arm along the cavity's side", minutes: 2 },
  { path: "body.cavities.*", what: "the cavity", tool: "calliper", how: "Inside jaws for length and width, depth rod for depth", minutes: 3 },
  { path: "body.specificGravity", what: "the wood's specific gravity", tool: "scales and water", how: "Weigh a dry offcut, then the water that it pushes out when held under: the first by the second; else name the wood", minutes: 5 },
  { path: "body.channels.*", what: "where the wire channel runs", tool: "calliper", how: "Push a straight wire through it: where and how deep it goes in and comes out, and the largest drill shank that enters", minutes: 5 },
  { path: "body.groundWire.*", what: "where the ground wire comes out", tool: "calliper", how: "Bridge off: from the old holes and from the centre line to the wire", minutes: 2 },
  { path: "body.oldPlate.*", what: "the old bridge's outline", tool: "calliper", how: "Measure the plate, or its mark on the top", minutes: 2 },
  { path: "body.neckScrews.*", what: "the neck screws", tool: "calliper", how: "From the edge of the heel to each screw's middle, and how long it is", minutes: 4 },
  { path: "body.tailEdge", what: "the tail edge of the body", tool: "steel rule", how: "Along the centre line from the pocket's end wall, or from the nut with a glued neck", minutes: 2 },
  { path: "controls.*.wood", what: "the thickness of the wood at that hole", tool: "calliper", how: "Depth rod through the hole against a flat piece held inside", minutes: 2 },
  { path: "controls.*.hole", what: "the hole's diameter", tool: "calliper", how: "Inside jaws, two ways across", minutes: 1 },
  { path: "controls.*.freeDepth", what: "the free depth below the top", tool: "calliper", how: "From the inner face of the top to the inside of the cover, at that place", minutes: 2 },
  { path: "controls.*.freeWidth", what: "the free width of the cavity there", tool: "calliper", how: "Wall to wall across the switch's frame, at its depth", minutes: 2 },
  { path: "controls.*.slotWidth", what: "the width of the old slot", tool: "feeler", how: "The thickest stack of feelers that slides through it", minutes: 2 },
  { path: "controls.*.slot", what: "the length of the old slot", tool: "calliper", how: "Inside jaws, end to end", minutes: 1 },
  { path: "controls.*.screws", what: "how far the old screws stand from the slot's middle", tool: "calliper", how: "Between the outer edges of both holes, less one diameter, halved", minutes: 2 },
  { path: "controls.*.screwHole", what: "the diameter of the old screw holes", tool: "drill shank", how: "The largest drill shank that goes in without force", minutes: 2 },
  { path: "controls.*", what: "the place of that control", tool: "calliper", how: "Inside jaws and depth rod", minutes: 2 },
  { path: "headstock.thickness", what: "the thickness of the headstock", tool: "calliper", how: "At the tuner holes, finish included", minutes: 1 },
  { path: "headstock.screws*.angle", what: "where the old screw stands round the post", tool: "protractor", how: "Its edge along the headstock, the arm from the post's middle to the screw's", minutes: 2 },
  { path: "headstock.*", what: "the headstock's holes", tool: "calliper", how: "Inside jaws, two ways across", minutes: 2 },
  { path: "strings.*.cents", what: "how sharp the string is at fret 12", tool: "trial", how: "Trial strings at pitch, contact at a known place: open against fret 12, three presses each", minutes: 6 },
  { path: "spares.*.cents", what: "how sharp the spare string is at fret 12", tool: "trial", how: "The spare string at pitch, contact at a known place: open against fret 12, three presses each", minutes: 6 },
  { path: "strings.*.oldSaddle.*", what: "where the old saddle stands, as intonated", tool: "steel rule", how: "From fret 12's crown to the contact, and from the nut's face to fret 12, with one rule", minutes: 3 },
  { path: "strings.*.setback", what: "the string's setback", tool: "trial", how: "Old saddle as intonated: fret 12 to contact less nut to fret 12; or a trial for cents at fret 12", minutes: 5 },
  { path: "strings.*.action", what: "the wanted height at fret 12", tool: "eye", how: "Choose it: 1.5 to 2.3 mm over the fret is usual", minutes: 1 },
  { path: "strings.*.nutHeight", what: "the string's height over the fret plane at the nut", tool: "feeler", how: "Gap over fret 1 with the string open", minutes: 2 },
  { path: "parts.*.saddles*", what: "how far each saddle can travel", tool: "calliper", how: "Saddle at each end of its travel: from the plate's front edge to the string's contact", minutes: 4 },
  { path: "parts.*.screws*.core", what: "the core of one bridge screw", tool: "calliper", how: "Knife edges of the jaws down into the thread, square to the screw", minutes: 1 },
  { path: "parts.*.screws*", what: "the new part's holes", tool: "calliper", how: "Edge to edge of the holes, plus half of each diameter; from the plate's front edge", minutes: 4 },
  { path: "parts.*.stringHoles*", what: "the new part's string holes", tool: "calliper", how: "Edge to edge of the holes, plus half of each diameter; from the plate's front edge", minutes: 4 },
  { path: "parts.*.saddleQ*", what: "where the strings cross the new bridge", tool: "calliper", how: "From the part's middle to the middle of each saddle, with a minus on the side of y < 0", minutes: 3 },
  { path: "parts.*.pitch", what: "where the strings cross the new bridge", tool: "calliper", how: "Outer saddles, middle to middle, divided by the strings less one", minutes: 2 },
  { path: "parts.*Anchor.*", what: "where the ball ends are held", tool: "calliper", how: "From the plate's front edge along the strings, and down from the top of the body with the plate on it", minutes: 3 },
  { path: "parts.*.lowest", what: "how low the saddles go", tool: "calliper", how: "Saddle wound down: from the underside of the plate to the string's contact", minutes: 2 },
  { path: "parts.*.highest", what: "how high the saddles go", tool: "calliper", how: "Saddle wound up: from the underside of the plate to the string's contact", minutes: 2 },
  { path: "parts.*.tailpiece.distance", what: "how far the tailpiece stands behind the bridge", tool: "calliper", how: "Choose it from the maker's drawing: front edge to front edge", minutes: 2 },
  { path: "parts.*.tailpiece.*", what: "the tailpiece", tool: "calliper", how: "Length, width and holes from its front edge", minutes: 3 },
  { path: "parts.*.length", what: "the new part's length", tool: "calliper", how: "Along the strings for a bridge, the longer way for a pickup", minutes: 1 },
  { path: "parts.*.width", what: "the new part's width", tool: "calliper", how: "Across the length", minutes: 1 },
  { path: "parts.*.winding", what: "how far the string's winding runs", tool: "steel rule", how: "Lay the string straight: from the ball to where the full winding ends", minutes: 3 },
  { path: "parts.*.threadLength", what: "how long the bushing's thread is", tool: "calliper", how: "From the shoulder that the wood bears on to the end of the thread", minutes: 1 },
  { path: "parts.*.threadDiameter", what: "the diameter of the bushing's thread", tool: "calliper", how: "Outside jaws over the crests", minutes: 1 },
  { path: "parts.*.ohmsAtHalfTurn", what: "the pot's ohms at half turn", tool: "meter", how: "Shaft at half turn: from the outer lug that shows next to nothing fully anticlockwise to the middle lug", minutes: 2 },
  { path: "parts.*.coils.*.kick", what: "which way the coil kicks", tool: "meter", how: "Meter on direct millivolts, the coil's own two ends on the probes, steel lowered quickly to its poles: up or down at first", minutes: 2 },
  { path: "parts.*.coils.*.ohms", what: "the coil's ohms", tool: "meter", how: "Across the coil's own two ends, one of them off, range 20 kΩ, fingers off the metal, the guitar at rest in the room; with a volume pot beside it the meter reads less", minutes: 2 },
  { path: "parts.*.ohms", what: "the pot's ohms", tool: "meter", how: "Outer lug to outer lug, out of the circuit", minutes: 1 },
  { path: "parts.*.shafts*", what: "the shaft", tool: "calliper", how: "Its diameter, and count the splines if it is split", minutes: 2 },
  { path: "parts.*.bores*", what: "the knob's bore", tool: "drill shank", how: "The largest drill shank that goes in without force", minutes: 2 },
  { path: "parts.*.depth", what: "how deep the new part reaches", tool: "calliper", how: "From its mounting face to its lowest point, lugs not counted", minutes: 1 },
  { path: "parts.*.lugs", what: "how far the lugs stand out", tool: "calliper", how: "Bent lugs and wire, beyond the part's lowest point", minutes: 1 },
  { path: "parts.*.ears.*", what: "the new part's ears", tool: "calliper", how: "Over all end to end, across, and from the string side of the body down to their underside", minutes: 2 },
  { path: "parts.*.poleSpread", what: "the outer poles, centre to centre", tool: "calliper", how: "Outside to outside of the outer poles, less one diameter", minutes: 1 },
  { path: "parts.*.pole*", what: "the poles", tool: "calliper", how: "Outside jaws on one pole; between the two poles of a string, centre to centre", minutes: 1 },
  { path: "parts.*.screw.angle", what: "where the tuner's screw stands round its post", tool: "protractor", how: "Its edge along the headstock, the arm from the post's middle to the screw's", minutes: 2 },
  { path: "parts.*.hole", what: "the hole that the tuner wants", tool: "calliper", how: "Outside jaws over the bushing or the post's sleeve", minutes: 1 },
  { path: "parts.*.thinnest", what: "the headstocks that the tuner fits", tool: "calliper", how: "From the tuner's face to the bushing's flange, screwed in as far and as little as it holds", minutes: 2 },
  { path: "parts.*.thickest", what: "the headstocks that the tuner fits", tool: "calliper", how: "From the tuner's face to the bushing's flange, screwed in as far and as little as it holds", minutes: 2 },
  { path: "parts.*.postSlot", what: "the slot or hole of the post", tool: "drill shank", how: "The largest drill shank that goes in without force", minutes: 2 },
  { path: "parts.*.gauge", what: "the strings' gauges", tool: "calliper", how: "Read the packet, or close the jaws lightly on each string", minutes: 3 },
  { path: "parts.*.unitMass", what: "the strings' weight by length", tool: "eye", how: "Look it up in the maker's table; else weigh a measured length of it", minutes: 3 },
  { path: "parts.*.frequency", what: "the strings' notes", tool: "eye", how: "Say to which note each is tuned", minutes: 1 },
  { path: "parts.*.screwHole", what: "the screw holes that the new part wants", tool: "calliper", how: "Over the thread of its screw", minutes: 1 },
  { path: "parts.*.screwGauge", what: "the screw's gauge", tool: "eye", how: "Read its number on the packet; else over the plain shank in mm, less 1.52, divided by 0.33", minutes: 1 },
  { path: "parts.*.screwLength", what: "the screw's length", tool: "calliper", how: "From under the head to the tip", minutes: 1 },
  { path: "parts.*.thickness", what: "the new part's thickness", tool: "calliper", how: "The thinnest way across", minutes: 1 },
  { path: "parts.*.mass", what: "the weight of the new part", tool: "scales", how: "Alone, with its screws", minutes: 1 },
  { path: "parts.*.oldMass", what: "the weight of the old part", tool: "scales", how: "Alone, with its screws", minutes: 1 },
  { path: "fit.strapButtons.*.hole", what: "the strap button's hole", tool: "drill shank", how: "The largest drill shank that goes in without force", minutes: 2 },
  { path: "fit.battery.room.*", what: "the room for the battery", tool: "calliper", how: "Inside jaws for length and width, depth rod to the cover", minutes: 2 },
  { path: "fit.masses*.x", what: "where the weight sits along the body", tool: "steel rule", how: "From the nut's face along the centre line", minutes: 2 },
  { path: "fit.masses*", what: "the weight of the part", tool: "scales", how: "Alone, with its screws", minutes: 1 },
  { path: "oldStrings.totalTension", what: "how hard the old strings pull", tool: "eye", how: "Add up the tensions in the table of the set that was on", minutes: 3 },
  { path: "strapButtonX", what: "where the strap button sits", tool: "steel rule", how: "From the nut's face along the centre line", minutes: 2 },
  { path: "workshop.routing", what: "how true your router cuts by the template", tool: "calliper", how: "Rout a trial pocket in scrap by the same template and measure it", minutes: 20 },
  { path: "settings.bitReach", what: "the free length of your longest bit", tool: "steel rule", how: "From the chuck's jaws to the tip", minutes: 1 },
  { path: "parts.*", what: "the new part", tool: "calliper", how: "Measure the part itself, not the box", minutes: 2 },
];

const MATCHERS = WAYS.map((way) => ({
  way,
  matches: new RegExp(`^${way.path.replace(/[.[\]]/g, "\\$&").replace(/\*/g, ".*")}$`),
}));

/** The way to read a value; a plain one for values the table does not name. */
export function howToMeasure(path: string): Way {
  return (
    MATCHERS.find(({ matches }) => matches.test(path))?.way ?? {
      path,
      what: path,
      tool: "steel rule",
      how: "Measure it",
      minutes: 3,
    }
  );
}

/** A value nobody has given, as a reading to take. */
export function missingReading(quantity: Quantity, settles: string): NextReading {
  const way = howToMeasure(quantity.path);
  return { path: quantity.path, what: way.what, tool: way.tool, how: way.how, minutes: way.minutes, settles };
}

/** A sharper way to read a known value, or undefined when its tool is already the best the table knows. */
export function sharperReading(
  quantity: Quantity,
):
  | { readonly tool: string; readonly u: number; readonly minutes: number; readonly what: string; readonly how: string }
  | undefined {
  const way = MATCHERS.find(({ matches }) => matches.test(quantity.path))?.way;
  if (!quantity.known || !way) return undefined;
  const tool = toolNamed(way.tool);
  if (!tool || tool.u >= standardUncertainty(quantity) * 0.99) return undefined;
  return { tool: way.tool, u: tool.u, minutes: way.minutes, what: way.what, how: way.how };
}
