import { describe, expect, it } from "vitest";
import { weakestValue } from "../../../src/core/begin/index.ts";
import { reading, verdict } from "../../support/verdicts.ts";

const share = (path: string, part: number, what = "steel rule, one reading") => ({
  path,
  what,
  share: part,
  sensitivity: 1,
});

describe("weakestValue", () => {
  it("counts values that are read in one way as one, and leaves out how one drills", () => {
    const shares = [
      share("settings.drilling.along", 0.4, "how the hand drill runs"),
      share("scaleLine.u", 0.25),
      share("strings.6.setback", 0.2, "a fixed rule, not this string"),
      share("strings.1.setback", 0.14, "a fixed rule, not this string"),
      share("strings.2.setback", 0.01, "a fixed rule, not this string"),
    ];
    expect(weakestValue(verdict({ id: "bridge.place", shares }))).toMatchObject({
      what: "the string's setback, strings 6 and 1",
      known: "a fixed rule, not this string",
      share: 0.2 + 0.14 + 0.01,
      drilling: 0.4,
      next: { path: "strings.6.setback", tool: "trial" },
    });
  });

  it("is the value that nobody has given, if there is one", () => {
    const missing = [reading({ path: "controls.pot.hole", what: "the hole's diameter" })];
    expect(weakestValue(verdict({ id: "a", shares: [share("x", 1)], missing }))).toEqual({
      what: "the hole's diameter",
      known: "",
      drilling: 0,
      next: missing[0],
    });
  });

  it("keeps to the reading that the verdict itself asks for", () => {
    const next = reading({ path: "scaleLine.u" });
    expect(weakestValue(verdict({ id: "a", shares: [share("strings.1.setback", 1)], next }))?.next).toBe(next);
  });

  it("is nothing where only the drilling is in doubt", () => {
    expect(weakestValue(verdict({ id: "a", shares: [share("settings.drilling.along", 1)] }))).toBeUndefined();
  });
});
