import { describe, expect, it } from "vitest";
import type { Answers } from "../../../src/core/begin/index.ts";
import { wiringOf } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { answered } from "./answers.ts";

const state = (answers: Answers) => answered("thin", answers, "wiring.state.pair");
const thin = (answers: Answers) => answered("thin", answers, "wiring.thin.pair");
const ground = (answers: Answers) => answered("thin", answers, "wiring.ground");
const remedies = ({ verdict }: ReturnType<typeof thin>) => verdict.remedies.map(({ text }) => showPhrase(text));

const REST = { ohms: "6.2 k, 6.5 k", metal: "none", controls: "volume 250 k, tone 250 k 22 n" };

describe("two pickups that are thin together", () => {
  // Columns of a guitar magazine on polarity and phase: winding and magnet both opposite: in phase, hum cancels; both the
  // same: in phase, hums; one of the two opposite: out of phase. Kick is winding times magnet; a drawn north is a south up.
  it.each<[string, Answers, string, RegExp]>([
    ["winding and magnet opposite", { kicks: "up up", compass: "draws north, draws south" }, "go", /in phase, quiet/],
    ["winding and magnet the same", { kicks: "up up", compass: "draws north, draws north" }, "go", /in phase, hums/],
    ["magnet opposite", { kicks: "up down", compass: "draws north, draws south" }, "no-go", /out of phase/],
    ["winding opposite", { kicks: "up down", compass: "draws north, draws north" }, "no-go", /out of phase/],
    ["the poles themselves named", { kicks: "+ +", compass: "south up, north up" }, "go", /in phase, quiet/],
  ])("[BG21] %s", (_, answers, status, words) => {
    for (const joined of ["parallel", "series"]) {
      const { verdict, headline } = state({ ...REST, ...answers, joined });
      expect(verdict.status).toBe(status);
      expect(headline).toMatch(words);
    }
  });

  it("[BG22] tries each cure: leads where magnets alone differ, magnets where windings alone differ", () => {
    const swap = thin({ ...REST, kicks: "up down", compass: "draws north, draws south" });
    expect(remedies(swap)[0]).toBe("Swap first.start and first.finish: in phase, quiet.");
    expect(remedies(swap).filter((text) => /magnets/.test(text))).toEqual([
      "Turn the magnets of first pickup over and leave its leads: in phase, but it hums.",
      "Turn the magnets of second pickup over and leave its leads: in phase, but it hums.",
    ]);
    const turn = thin({ ...REST, kicks: "up down", compass: "draws north, draws north" });
    expect(remedies(turn)[0]).toBe("Turn the magnets of first pickup over and leave its leads: in phase, quiet.");
    expect(remedies(turn).at(-1)).toBe("Swap second.start and second.finish: in phase, but it hums.");
  });

  it("[BG22] minds metal that is joined to a lead: the other pickup is turned round", () => {
    const answers = { ...REST, kicks: "up down", compass: "draws north, draws south", metal: "base plate of first" };
    expect(remedies(thin(answers))[0]).toBe("Swap second.start and second.finish: in phase, quiet.");
    expect(remedies(thin(answers))[1]).toMatch(
      /but first cut the jumper from base plate of first pickup to first\.start/,
    );
    expect(ground(answers).verdict.status).toBe("go");
    // In series the first pickup stands on the second: its ground lead is not at ground.
    expect(ground({ ...answers, joined: "series" }).headline).toBe(
      "Base plate of first pickup is live: first.start is not at ground.",
    );
  });

  it("[BG23] asks for the kicks that nobody knows, because ohms cannot show phase", () => {
    const { verdict, detail } = state({ ...REST, kicks: "up ?" });
    expect(verdict.status).toBe("measure");
    expect(verdict.missing.map(({ path, how }) => [path, how.slice(-44)])).toEqual([
      ["parts.second-pickup.coils.a.kick", "red on second.finish, black on second.start"].map((text, index) =>
        index === 0 ? text : text.padStart(44),
      ),
    ]);
    expect(detail.join(" ")).toMatch(/ohms do not tell/);
    const up = state({ ...REST, kicks: "up up" }).verdict.figures.ohms;
    expect(state({ ...REST, kicks: "up down" }).verdict.figures.ohms).toBe(up);
  });
});

describe("other causes, as far as sums decide", () => {
  const IN_PHASE = { ...REST, kicks: "up up", compass: "draws north, draws south" };

  it("tells level and peak together against each alone", () => {
    const { headline, verdict } = thin(IN_PHASE);
    expect(headline).toMatch(/^Phase is not the reason\. By the circuit it is \+0\.\d dB against first pickup alone/);
    // Two coils side by side have about half the inductance: with the same cable the peak stands √2 higher (f = 1/2π√LC).
    // Their own capacitance, 100 pF each beside 500 pF, takes √(600/700) off that.
    const [first = 0, both = 0] =
      /peak at (\d\.\d) kHz against (\d\.\d)/.exec(headline)?.slice(1).map(Number).reverse() ?? [];
    expect(both / first).toBeGreaterThan(1.25);
    expect(both / first).toBeLessThan(1.45);
    expect(verdict.figures.togetherDb).toBeGreaterThan(-1);
  });

  it("[BG24] shows what a knob, a capacitor and a pot's value do", () => {
    const { detail } = thin({ ...IN_PHASE, controls: "volume 250 k at 5, capacitor 4.7 n" });
    expect(detail.join(" ")).toMatch(/With volume at full and not at 5\.0: \+\d/);
    expect(detail.join(" ")).toMatch(/Without cap-across \(4\.7 nF\): /);
    expect(detail.join(" ")).toMatch(/Without volume \(250 kΩ\): /);
  });

  it("out of phase, alike coils lose more than they keep", () => {
    const { headline, verdict } = thin({ ...REST, kicks: "up down" });
    expect(verdict.status).toBe("no-go");
    expect(Number(/: (\d+\.\d) dB are lost/.exec(headline)?.[1])).toBeGreaterThan(20);
  });
});

describe("the grown job", () => {
  it("shows in the table of states what the question shows", () => {
    const { job } = thin({ ...REST, kicks: "up down", joined: "series" });
    const [pair] = wiringOf(job)?.states ?? [];
    expect(pair?.sound).toMatch(/first pickup.* then second pickup/);
    expect(pair?.phases).toEqual(["out of phase"]);
    expect(wiringOf(job)?.findings.map(({ kind }) => kind)).toEqual(["out of phase"]);
  });
});
