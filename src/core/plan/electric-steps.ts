/** Steps of the electrics: ground wire, foil, coils, wiring, and the readings that prove each before the next. */
import { figure, mm, type Phrase, say, valueOr } from "../quantity/index.ts";
import type { Contents } from "./contents.ts";
import { confirm, type Draft, draft, putOn, slug, tool, value } from "./draft.ts";
import { coilReadings, lastSolderReadings, solderSteps } from "./solder-steps.ts";
import type { AskedReading, PlanInput } from "./types.ts";

/** A good joint or seam reads less than this (common practice, no source). */
const GOOD_CONTACT_OHMS = 1;
const GOOD_SEAM_OHMS = 2;

export function electricSteps(input: PlanInput, has: Contents): readonly Draft[] {
  return [
    ...(has.bridge ? [groundWireStep(input)] : []),
    ...(has.foil.length > 0 ? [foilStep(input, has.foil), proveFoilStep(input, has)] : []),
    ...(has.pickups.length > 0 && has.wiring ? [mapCoilsStep(input, has.pickups)] : []),
    ...has.pickups.map((id) => fitPickupStep(input, id)),
    ...has.controls.map((id) => fitControlStep(input, id)),
    ...(has.lever ? [fitLeverStep(input)] : []),
    ...(has.wiring ? [...solderSteps(input), wireStep(input, has), ohmsStep(input), coverStep(input, has)] : []),
  ];
}

function contact(id: string, subject: string, what: Phrase, how: Phrase, most: number): AskedReading {
  return value(id, subject, {
    what,
    tool: "ohmmeter",
    how,
    unit: "Ω",
    expected: { value: most / 2, tolerance: most / 2 },
  });
}

function groundWireStep(input: PlanInput): Draft {
  return draft(input, {
    id: "ground-wire",
    kind: "ground wire",
    target: "bridge",
    hold: 6,
    title: say`Ground wire in, and continuous to bare metal, before plate or posts`,
    tools: [tool(say`ohmmeter`), tool(say`wire, long enough to reach the jack`)],
    instructions: [
      say`Bare end under the plate or in the post's hole, other end in the control cavity.`,
      say`Tape it so that it cannot slip back.`,
    ],
    readings: [
      contact(
        "ground-wire-ohms",
        "bench.groundWire",
        say`wire's far end to the metal it will touch`,
        say`One probe on the wire in the cavity, one on bare metal of the part held on it.`,
        GOOD_CONTACT_OHMS,
      ),
    ],
  });
}

function foilStep(input: PlanInput, cavities: readonly string[]): Draft {
  return draft(input, {
    id: "foil",
    kind: "foil",
    target: "foil",
    permanence: "hidden",
    pieces: cavities.length,
    title: say`Line with foil: ${cavities.join(", ")}`,
    tools: [tool(say`copper foil, scissors, knife`), tool(say`ohmmeter`), tool(say`iron, for a dab on each seam`)],
    instructions: [
      say`First stick two offcuts over each other and measure across: does the glue conduct?`,
      say`Floor, then walls, laps of ${mm(5, 0)}, a tab over the rim to meet the cover.`,
      say`Solder a dab over each seam if the glue does not conduct.`,
    ],
    buys: [{ what: say`copper foil for ${cavities.length} cavities`, quantity: 1, steps: ["foil"] }],
  });
}

function proveFoilStep(input: PlanInput, has: Contents): Draft {
  const gap = valueOr(input.instrument.limits.lugToFoil, 2);
  return draft(input, {
    id: "prove-foil",
    kind: "prove foil",
    target: "foil",
    hold: 7,
    title: say`Foil proved across every seam, every lug clear of it`,
    tools: [tool(say`ohmmeter`), tool(say`a strip ${mm(gap, 1)} thick to pass round the lugs`)],
    instructions: [
      say`One probe stays at the ground point; touch every piece of foil with the other.`,
      say`Pass the strip round every lug, plug in the jack too.`,
    ],
    readings: [
      ...has.foil.map((cavity) =>
        contact(
          slug("seams", cavity),
          `bench.seams.${cavity}`,
          say`worst seam of ${cavity}`,
          say`From the ground point to the piece furthest off.`,
          GOOD_SEAM_OHMS,
        ),
      ),
      confirm(
        "lugs-clear",
        "bench.lugsClear",
        say`every lug ${mm(gap, 1)} clear, or insulated`,
        say`Cover held on, look through the wire hole; else card between.`,
      ),
    ],
  });
}

function mapCoilsStep(input: PlanInput, pickups: readonly string[]): Draft {
  return draft(input, {
    id: "map-coils",
    kind: "map coils",
    target: "pickups",
    hold: 8,
    pieces: pickups.length,
    title: say`Map every coil and its kick before a wire is joined`,
    tools: [tool(say`ohmmeter, with a slow or analogue range`), tool(say`a steel screwdriver`)],
    instructions: [
      say`Ohms between all ends: each pair that reads is one coil.`,
      say`Lower steel to its poles and note which way the meter kicks. Write colours as you see them.`,
    ],
    readings: pickups.flatMap((id) => {
      const coils = (input.coils ?? []).filter(({ pickup }) => pickup === id);
      if (coils.length > 0) return coils.flatMap(coilReadings);
      return [
        confirm(
          slug("map", id),
          `coils.${id}.mapped`,
          say`${id}: pairs, ohms and kicks entered`,
          say`Red probe on the finish, black on the start.`,
        ),
      ];
    }),
  });
}

function fitPickupStep(input: PlanInput, id: string): Draft {
  return draft(input, {
    id: slug("fit-pickup", id),
    kind: "fit pickups",
    target: id,
    title: say`Put the ${id} pickup in`,
    work: putOn(`pickup.${id}`),
    tools: [tool(say`screwdriver`), tool(say`springs or foam`)],
    instructions: [
      say`It drops in under its own weight and moves through its whole height.`,
      say`Lead through its hole, slack left at both ends.`,
    ],
  });
}

function fitControlStep(input: PlanInput, id: string): Draft {
  return draft(input, {
    id: slug("fit-control", id),
    kind: "fit controls",
    target: id,
    title: say`Put the ${id} control in`,
    work: putOn(`control.${id}`),
    tools: [tool(say`spanner, and tape on the face`)],
    instructions: [
      say`Turn it so that the lugs point where the wires come from.`,
      say`Hold the body inside while you tighten: two full threads above the nut, no more force.`,
    ],
  });
}

function fitLeverStep(input: PlanInput): Draft {
  return draft(input, {
    id: "fit-lever",
    kind: "fit controls",
    target: "lever",
    title: say`Put the lever in`,
    work: putOn("lever"),
    tools: [tool(say`screwdriver`)],
    instructions: [say`Move it through every place: nothing touches wood, foil or a wire.`],
  });
}

/** The last of the soldering, where the groups are known; all of it where they are not. */
function wireStep(input: PlanInput, has: Contents): Draft {
  const last = input.solder?.at(-1);
  return draft(input, {
    id: "wire",
    kind: "wire",
    target: "wiring",
    pieces: last ? 1 : has.pickups.length + has.controls.length + (has.lever ? 1 : 0),
    title: last ? say`Solder: ${last.title}` : say`Solder the wiring`,
    work: putOn("wiring"),
    tools: [tool(say`iron, solder, cutter`), tool(say`wiring sheet`), tool(say`a well-ventilated place`)],
    ...lastSolderReadings(input),
  });
}

function jackReadings(input: PlanInput, subject: string, prefix: string): readonly AskedReading[] {
  const states = input.ohms ?? [];
  const how = say`Plug in, tip to sleeve, knobs full.`;
  if (states.length === 0)
    return [confirm(slug(prefix, "all"), `${subject}.all`, say`ohms in every position, as the wiring sheet says`, how)];
  return states.map(({ state, title, ohms, tolerance }) =>
    value(slug(prefix, state), `${subject}.${slug(state)}`, {
      what: say`${title}`,
      tool: "ohmmeter",
      how,
      unit: "Ω",
      expected: { value: ohms, tolerance },
    }),
  );
}

function ohmsStep(input: PlanInput): Draft {
  return draft(input, {
    id: "ohms",
    kind: "ohms",
    target: "wiring",
    hold: 9,
    title: say`Ohms in every position and the tap test, before strings`,
    tools: [tool(say`ohmmeter and a plug with a short cable`), tool(say`a steel screwdriver`)],
    instructions: [
      say`Write down the reading before you look at what it should be.`,
      say`Cable into an amplifier at low volume: tap each row of poles.`,
    ],
    readings: [
      ...jackReadings(input, "ohms", "ohms"),
      confirm(
        "tap",
        "tap.all",
        say`each coil heard where it should be, and only there`,
        say`Steel to the poles, position by position.`,
      ),
    ],
  });
}

function coverStep(input: PlanInput, has: Contents): Draft {
  return draft(input, {
    id: "cover-on",
    kind: "cover on",
    target: "wiring",
    hold: 10,
    title: say`The same again with the cover on and the plug in`,
    tools: [tool(say`ohmmeter`), tool(say`screwdriver`)],
    instructions: [say`Screw the cover down, read again: a reading near ${figure(0, "Ω", 0)} is a lug on foil.`],
    readings: [
      ...jackReadings(input, "ohms.covered", "covered"),
      ...(has.bridge
        ? [
            contact(
              "strings-to-sleeve",
              "ohms.bridge",
              say`bridge to the jack's sleeve`,
              say`One probe on a saddle, one on the plug's sleeve.`,
              GOOD_CONTACT_OHMS,
            ),
          ]
        : []),
    ],
  });
}
