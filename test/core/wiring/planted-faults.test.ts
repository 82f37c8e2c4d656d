import { describe, expect, it } from "vitest";
import type { Finding, FindingKind } from "../../../src/core/circuit/index.ts";
import { raised, wiringOf } from "../../support/wiring.ts";

// Each design fault planted alone into Lowtide's clean wiring: it is found and named by its lugs, and nothing else is
// called a fault that does not follow from it.

type Wires = Record<string, string>;
interface Planted {
  readonly name: string;
  // biome-ignore lint/suspicious/noExplicitAny: plain data of a job file, edited by path
  readonly edit: (data: any) => void;
  readonly kind: FindingKind;
  readonly grade: Finding["grade"];
  readonly lug?: string;
  readonly states?: readonly string[];
  /** What else is raised, because it follows. */
  readonly besides?: readonly string[];
}

const wires = (edit: (wires: Wires) => void) => (data: { wiring: { wires: Wires } }) => edit(data.wiring.wires);

const PLANTED: readonly Planted[] = [
  {
    name: "hot shorted by a wire from the output to a case",
    edit: wires((all) => {
      all.slip = "volume.3 to volume.case, white";
    }),
    kind: "hot shorted",
    grade: "fault",
    lug: "volume.3",
  },
  {
    name: "a jumper on the lever forgotten: position 6 silent",
    edit: wires((all) => {
      delete all["neck-5-6"];
    }),
    kind: "silent",
    grade: "fault",
    lug: "lever.p3-6",
    states: ["6"],
  },
  {
    name: "half a humbucker shorted by a whisker between its ends",
    edit: wires((all) => {
      all.whisker = "neck.yellow to neck.grey";
    }),
    kind: "coil shorted",
    grade: "fault",
    lug: "neck.yellow",
    states: ["3", "6"],
    besides: ["fault: other sound", "fault: other sound", "fault: hums", "fault: hums", "caution: coil never heard"],
  },
  {
    name: "the split taken to the output instead of to ground: a coil hangs from hot",
    edit: wires((all) => {
      delete all["hot-1-2"];
      delete all["hot-2-3"];
      all["hot-1-3"] = "lever.p1-1 to lever.p1-3";
      all["bridge-middle-a"] = "bridge.orange to lever.p1-2";
      all["bridge-middle-b"] = "bridge.cream to lever.p1-2";
      // Reef A then sounds, and Reef B hangs from hot; its brown end is ground.
    }),
    kind: "coil hangs from hot",
    grade: "caution",
    lug: "bridge.cream",
    states: ["2"],
    besides: ["fault: hums"],
  },
  {
    name: "no string ground",
    edit: (data) => {
      delete data.wiring.metal["bridge-wire"];
      delete data.wiring.wires["string-ground"];
    },
    kind: "string ground missing",
    grade: "fault",
  },
  {
    name: "the bridge's wire left loose in the cavity",
    edit: wires((all) => {
      delete all["string-ground"];
    }),
    kind: "metal not grounded",
    grade: "fault",
    lug: "bridge-wire.lug",
  },
  {
    name: "foil joined to nothing",
    edit: wires((all) => {
      delete all["foil-ground"];
    }),
    kind: "metal not grounded",
    grade: "fault",
    lug: "foil.lug",
  },
  {
    name: "the base plate's jumper at the hot end",
    edit: (data) => {
      data.parts.eddy.metal = { "base plate": "yellow" };
    },
    kind: "metal live",
    grade: "fault",
    lug: "middle.yellow",
  },
  {
    name: "tip and sleeve swapped at the jack",
    edit: wires((all) => {
      all["to-jack"] = "bass-cut.3 to jack.sleeve, white";
      all["jack-ground"] = "jack.tip to volume.case, black";
    }),
    kind: "tip and sleeve swapped",
    grade: "fault",
    lug: "jack.tip",
    besides: ["caution: coil hangs from hot"],
  },
  {
    name: "two pickups' ground through one wire",
    edit: wires((all) => {
      all["bridge-ground"] = "bridge.brown to treble-cut.case";
      all["neck-ground"] = "neck.grey to treble-cut.case";
    }),
    kind: "ground through one wire",
    grade: "caution",
    lug: "treble-cut.case",
  },
  {
    name: "the common of pole 4 forgotten",
    edit: wires((all) => {
      delete all["lever-ground"];
    }),
    kind: "pole not used",
    grade: "fault",
    lug: "lever.p4-c",
    // Without its ground the split does not happen: the whole pickup sounds where one coil should.
    besides: ["fault: other sound", "fault: other sound", "fault: hums", "fault: hums"],
  },
  {
    name: "a pole that nothing uses",
    edit: (data) => {
      data.parts.tiller.contacts.poles = 5;
    },
    kind: "pole not used",
    grade: "caution",
    lug: "lever.p5-c",
  },
  {
    name: "a conductor left hanging",
    edit: (data) => {
      data.parts.eddy.coils.spare = {
        ohms: "1 k",
        inductance: "0.5 H",
        capacitance: "50 pF",
        start: "red",
        finish: "green",
      };
      data.wiring.states["4"].sound = "middle.eddy";
      data.wiring.states["2"].sound = "one of bridge with middle.eddy";
      data.wiring.states["5"].sound = "one of neck with middle.eddy";
    },
    kind: "loose end",
    grade: "caution",
    lug: "middle.red",
    besides: ["caution: coil never heard", "caution: loose end"],
  },
  {
    name: "one pickup's leads swapped: out of phase",
    edit: wires((all) => {
      all["neck-hot"] = "neck.grey to lever.p3-3";
      all["neck-ground"] = "neck.violet to volume.case";
    }),
    kind: "out of phase",
    grade: "fault",
    states: ["3"],
    // Turned round as a whole, its split keeps the other coil, the other way round.
    besides: ["fault: out of phase"],
  },
  {
    name: "the wrong coil kept in a split",
    edit: wires((all) => {
      all["hot-1"] = "bridge.orange to lever.p1-1";
      all["bridge-ground"] = "bridge.cream to volume.case";
      all["bridge-middle-a"] = "bridge.brown to lever.p4-2";
      all["bridge-middle-b"] = "bridge.blue to lever.p4-2";
    }),
    kind: "hums",
    grade: "fault",
    states: ["2"],
  },
  {
    name: "two positions' jumpers exchanged: another sound than wanted",
    edit: wires((all) => {
      all["middle-4-5"] = "lever.p2-4 to lever.p2-6, white";
    }),
    kind: "other sound",
    grade: "fault",
    states: ["5"],
    besides: ["fault: other sound", "fault: hums", "fault: hums"],
  },
  {
    name: "a coil whose kick nobody has read",
    edit: (data) => {
      const coil = data.parts.eddy.coils.eddy;
      delete coil.magnet;
    },
    kind: "signs not known",
    grade: "caution",
    lug: "middle.yellow",
    states: ["2", "5"],
  },
  {
    name: "the tone pot's capacitor on a lug that leads nowhere",
    edit: (data) => {
      data.wiring.components["treble-cap"].leads = ["treble-cut.3", "treble-cut.case"];
      data.wiring.wires["to-treble"] = "volume.3 to treble-cut.2, white";
      data.wiring.components["treble-cap"].leads = ["treble-cut.1", "treble-cut.1"];
    },
    kind: "knob does nothing",
    grade: "fault",
    lug: "treble-cut.2",
  },
  {
    name: "a volume that rises anticlockwise with an audio pot",
    edit: (data) => {
      data.fit.controls.volume.rises = "anticlockwise";
      data.wiring.wires["to-volume"] = "lever.p1-c to volume.1, white";
      data.wiring.wires["to-treble"] = "volume.1 to treble-cut.1, white";
      data.wiring.wires["volume-ground"] = "volume.3 to volume.case, black";
    },
    kind: "knob all at one end",
    grade: "caution",
    lug: "volume.1",
  },
  {
    name: "a lever that makes before it breaks, ground beside hot",
    edit: (data) => {
      data.parts.tiller.contacts = {
        lugs: ["p1-c", "p1-1", "p1-2", "p2-c"],
        positions: { "1": [["p1-c", "p1-1"]], "2": [["p1-c", "p1-2"]], "3": [["p1-c", "p2-c"]] },
        makeBeforeBreak: true,
      };
      data.wiring.wires = {
        hot: "middle.yellow to lever.p1-c",
        a: "lever.p1-1 to jack.tip",
        b: "lever.p1-2 to volume.case",
        ground: "middle.grey to volume.case",
        sleeve: "jack.sleeve to volume.case",
        strings: "bridge-wire.lug to volume.case",
        foil: "foil.lug to volume.case",
        treble: "treble-cut.case to volume.case",
        bass: "bass-cut.case to volume.case",
      };
      data.wiring.states = { "1": { sound: "middle" }, "3": { title: "off" } };
    },
    kind: "short while switching",
    grade: "caution",
    besides: undefined as never,
  },
];

const NOT_LISTED = new Set(["a lever that makes before it breaks, ground beside hot"]);

describe("a fault planted alone", () => {
  it.each(PLANTED)("$name", ({ name, edit, kind, grade, lug, states, besides }) => {
    const report = wiringOf("lowtide", edit);
    const found = report.findings.filter((finding) => finding.kind === kind && finding.grade === grade);
    expect(found.length, JSON.stringify(raised(report))).toBeGreaterThan(0);
    const one = found.find(({ lugs }) => lug === undefined || lugs.includes(lug));
    expect(one?.lugs ?? []).toEqual(lug === undefined ? (one?.lugs ?? []) : expect.arrayContaining([lug]));
    if (states) expect(found.flatMap((finding) => finding.states)).toEqual(expect.arrayContaining([...states]));
    for (const { what, why, remedy } of found) for (const words of [what, why, remedy]) expect(words).toMatch(/\S/);
    if (NOT_LISTED.has(name)) return;
    const others = raised(report).filter((words) => words !== `${grade}: ${kind}`);
    expect(others.sort()).toEqual([...(besides ?? [])].filter((words) => words !== `${grade}: ${kind}`).sort());
  });

  it("raises nothing where nothing is wrong", () => {
    expect(raised(wiringOf("lowtide"))).toEqual([]);
  });
});

describe("batteries", () => {
  // biome-ignore lint/suspicious/noExplicitAny: plain data of a job file, edited by path
  const active = (minus: string) => (data: any) => {
    data.wiring.jack = { kind: "stereo" };
    data.wiring.batteries = ["battery"];
    data.wiring.wires["battery-minus"] = `battery.minus to ${minus}`;
  };

  it("minus at ground runs flat in its case", () => {
    const report = wiringOf("lowtide", active("volume.case"));
    expect(report.findings.find(({ kind }) => kind === "battery not cut off")?.remedy).toBe(
      "Take battery.minus to jack.ring",
    );
  });

  it("minus at nothing never comes on", () => {
    const report = wiringOf("lowtide", active("lever.p1-6"));
    expect(raised(report)).toContain("fault: battery never on");
  });

  it("minus at the ring is cut off by pulling the plug", () => {
    expect(raised(wiringOf("lowtide", active("jack.ring")))).toEqual([]);
  });
});
