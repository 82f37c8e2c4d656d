import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { loadJob, type WiringReport, wiringOf } from "../../../src/core/index.ts";
import { coilWays, lugInStates, lugsByDevice, wiresOn } from "../../../src/web/state/wiring-ways.ts";
import {
  decibelsInWords,
  guessesInWords,
  hertz,
  humInWords,
  kilohms,
  levelInWords,
  limitsInWords,
  loadInWords,
  narrowedBy,
  ohmsInWords,
  peakInWords,
  phaseInWords,
  stringsInWords,
  wantedInstead,
} from "../../../src/web/state/wiring-words.ts";

function reportOf(name: string): WiringReport {
  const report = wiringOf(loadJob(parse(readFileSync(`examples/${name}.yaml`, "utf8"))));
  if (!report) throw new Error(`${name} has no wiring`);
  return report;
}
const [lowtide, ferry] = [reportOf("lowtide"), reportOf("ferry")];
const stateOf = (report: WiringReport, id: string) => {
  const state = report.states.find((one) => one.id === id);
  if (!state) throw new Error(`no state ${id}`);
  return state;
};
/** Figures and units stand on one line. */
const plain = (text: string) => text.replaceAll("\u00a0", " ");

describe("[PG18] figures of a wiring in words", () => {
  it("are ohms as a meter shows them", () => {
    expect(plain(kilohms(12_432))).toBe("12.43 kΩ");
    expect(plain(kilohms(500_000))).toBe("500.0 kΩ");
    expect(kilohms(Number.POSITIVE_INFINITY)).toBe("open");
    expect(plain(limitsInWords({ low: 11_760, high: 13_100 }))).toBe("11.76 … 13.10 kΩ");
    expect(limitsInWords({ low: 1, high: Number.POSITIVE_INFINITY })).toBe("no reading at all");
    expect([ohmsInWords(47e3), ohmsInWords(1e6)].map(plain)).toEqual(["47 kΩ", "1.00 MΩ"]);
  });

  it.each([
    [5.84, "+5.8 dB"],
    [-0.24, "−0.2 dB"],
    [-0.04, "0.0 dB"],
    [-200, "silent"],
  ])("%s dB is %j", (dB, words) => {
    expect(plain(decibelsInWords(dB))).toBe(words);
  });

  it("are frequencies, and a band where values are guesses, the lower end first", () => {
    expect([hertz(440), hertz(2064)].map(plain)).toEqual(["440 Hz", "2.06 kHz"]);
    expect(plain(peakInWords(stateOf(lowtide, "1")))).toMatch(/^\d\.\d\d kHz$/);
    for (const state of ferry.states) {
      const [, low, high] = /^(\d\.\d) … (\d\.\d) kHz$/.exec(plain(peakInWords(state))) ?? [];
      expect(Number(low)).toBeLessThanOrEqual(Number(high));
    }
    expect(narrowedBy(ferry)).toMatch(/resonance/);
    expect(narrowedBy(lowtide)).toBeUndefined();
    expect(guessesInWords(ferry)).toHaveLength(ferry.guesses.length);
  });

  it("tell levels by strings where they differ", () => {
    expect(plain(levelInWords(stateOf(ferry, "both")))).toMatch(/\(strings 1 and 2\), .+\(strings 3 and 4\)$/);
    expect(plain(levelInWords(stateOf(lowtide, "1")))).toMatch(/^[+−]\d\.\d dB$/);
    expect([stringsInWords([3]), stringsInWords([1, 2, 3])]).toEqual(["string 3", "strings 1, 2 and 3"]);
  });

  it("tell hum, phase, and what was wanted instead", () => {
    expect(humInWords(stateOf(lowtide, "4"))).toMatchObject({ word: "hums" });
    expect(humInWords({})).toEqual({ word: "not known", figures: "" });
    expect(phaseInWords(stateOf(lowtide, "4"))).toBeUndefined();
    expect(phaseInWords(stateOf(lowtide, "1"))).toEqual({ words: "in phase", wrong: false });
    expect(phaseInWords(stateOf(ferry, "both"))).toEqual({ words: "strings 1 and 2 out of phase", wrong: true });
    expect(wantedInstead(ferry, stateOf(ferry, "both"))).toMatch(/^\(set-1-low with set-1-high\)/);
    expect(wantedInstead(lowtide, stateOf(lowtide, "1"))).toBeUndefined();
    expect(plain(loadInWords(lowtide))).toContain("500 pF of cable into an input of 1.00 MΩ");
  });
});

describe("[PG18] where a lug goes", () => {
  it("is the way of each coil to tip and sleeve, and says where none leads there plainly", () => {
    const ways = coilWays(lowtide, "1");
    expect(ways.map(({ name, stringSign }) => `${name} ${stringSign}`).sort()).toEqual(["Reef A +", "Reef B +"]);
    const second = ways.find(({ name }) => name === "Reef B");
    expect(second?.toTip[0]).toBe("bridge.blue");
    expect(second?.toTip.at(-1)).toBe("jack.tip");
    expect(second?.toSleeve).toEqual([]);
    // In series: hum of the two coils cancels.
    expect(new Set(ways.map(({ humSign }) => humSign))).toEqual(new Set(["+", "−"]));
    expect(coilWays(lowtide, "99")).toEqual([]);
  });

  it("differs from state to state", () => {
    const states = lugInStates(lowtide, "middle.yellow");
    expect(states.filter(({ at }) => at === "tip").map(({ id }) => id)).toEqual(["2", "4", "5"]);
    expect(states[1]?.joined).toContain("lever.p2-c");
    expect(states[0]?.joined).not.toContain("lever.p2-c");
    expect(lugInStates(lowtide, "volume.case").every(({ at }) => at === "ground")).toBe(true);
    expect(wiresOn(lowtide, "lever.p1-1")).toEqual([
      { id: "hot-1", other: "bridge.blue" },
      { id: "hot-1-2", other: "lever.p1-2" },
    ]);
    expect(lugsByDevice(lowtide).find(({ device }) => device === "jack")?.lugs).toEqual(["jack.tip", "jack.sleeve"]);
  });
});
