import { describe, expect, it } from "vitest";
import { bestRemedy, briefing, worstFirst } from "../../../src/core/briefing/index.ts";
import { EMPTY_WINDOW, reading, remedy, verdict } from "../../support/verdicts.ts";

const ids = (verdicts: readonly { id: string }[]): string[] => verdicts.map(({ id }) => id);

describe("worstFirst", () => {
  it("weighs the chance of going wrong by what it costs", () => {
    const wrongKnob = verdict({ id: "knob", status: "no-go", stake: 1, probability: 0 });
    const doubtfulBridge = verdict({ id: "bridge", status: "measure", stake: 3, probability: 0.63 });
    const surePlugs = verdict({ id: "plugs", status: "rework", stake: 3, probability: 0.98 });
    expect(ids(worstFirst([surePlugs, wrongKnob, doubtfulBridge]))).toEqual(["bridge", "knob", "plugs"]);
  });

  it("takes a no-go without a chance for certain and a measure for open", () => {
    const order = [
      verdict({ id: "work", status: "rework" }),
      verdict({ id: "open", status: "measure" }),
      verdict({ id: "not", status: "no-go" }),
    ];
    expect(ids(worstFirst(order))).toEqual(["not", "open", "work"]);
  });

  it("keeps the order of equals and does not touch what it was given", () => {
    const given = ["b", "a", "c"].map((id) => verdict({ id, status: "no-go" }));
    expect(ids(worstFirst(given))).toEqual(["b", "a", "c"]);
    expect(ids(given)).toEqual(["b", "a", "c"]);
  });
});

describe("briefing", () => {
  it("shows three in full, the rest in brief, and folds what goes", () => {
    const bad = ["a", "b", "c", "d", "e"].map((id) => verdict({ id, status: "no-go" }));
    const { inFull, inBrief, go } = briefing([verdict({ id: "fine" }), ...bad]);
    expect([ids(inFull), ids(inBrief), ids(go)]).toEqual([["a", "b", "c"], ["d", "e"], ["fine"]]);
  });

  it("asks first for a decision where nothing fits, although a reading is named too", () => {
    expect(briefing([EMPTY_WINDOW]).next).toMatchObject({ kind: "decide", remedy: { id: "wound-third" } });
  });

  it("asks for the reading that an open verdict waits for", () => {
    const open = verdict({ id: "open", status: "measure", next: reading() });
    const work = verdict({ id: "work", status: "rework", stake: 3, probability: 0 });
    expect(briefing([work, open]).next).toMatchObject({ kind: "measure", verdict: { id: "open" } });
  });

  it("asks for the first missing value if no reading stands out", () => {
    const open = verdict({ id: "open", status: "measure", missing: [reading({ path: "relief" })] });
    expect(briefing([open]).next).toMatchObject({ kind: "measure", reading: { path: "relief" } });
  });

  it("sends to the work when only work is left, and begins when nothing is", () => {
    expect(briefing([verdict({ id: "w", status: "rework" })]).next.kind).toBe("work");
    expect(briefing([verdict({ id: "fine" })]).next.kind).toBe("begin");
    expect(briefing([verdict({ id: "x", status: "no-go" })]).next.kind).toBe("look");
  });
});

describe("bestRemedy", () => {
  it("prefers what goes, then what can be undone, then what is more certain", () => {
    const best = (...given: Parameters<typeof remedy>[0][]): string | undefined => bestRemedy(given.map(remedy))?.id;
    expect(best({ id: "a", then: "rework" }, { id: "b", then: "go", permanence: "permanent" })).toBe("b");
    expect(best({ id: "a", then: "go", permanence: "permanent" }, { id: "b", then: "go" })).toBe("b");
    expect(best({ id: "a", then: "go", probability: 0.9 }, { id: "b", then: "go", probability: 0.98 })).toBe("b");
    expect(best({ id: "a", then: "measure" }, { id: "b" }, { id: "c", then: "no-go" })).toBe("b");
    expect(best()).toBeUndefined();
  });
});
