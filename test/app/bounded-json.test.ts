import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boundedJson } from "../../src/app/bounded-json.ts";

const read = (text: string) => boundedJson(text, "file", "Mend it");
const nested = (depth: number) => `${"[".repeat(depth)}${"]".repeat(depth)}`;

describe("boundedJson", () => {
  it("reads whatever JSON writes", () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), (value) => {
        expect(read(JSON.stringify(value))).toEqual(JSON.parse(JSON.stringify(value)));
      }),
      { seed: 7 },
    );
  });

  it("refuses what is deeper than 48, whatever it is made of", () => {
    expect(read(nested(48))).toBeDefined();
    expect(() => read(nested(49))).toThrow("file: is nested more than 48 deep. Mend it.");
    expect(() => read('{"a":'.repeat(49))).toThrow("nested more than 48 deep");
    expect(() => read(nested(1_000_000))).toThrow("nested more than 48 deep");
  });

  it("counts no brackets inside texts", () => {
    const texts = ["[".repeat(100), `\\"${"[".repeat(100)}`, `${"[".repeat(60)}\\\\`, '\\\\\\"{{'.repeat(60)];
    for (const text of texts) expect(read(`["${text}"]`)).toEqual([JSON.parse(`"${text}"`)]);
    // After a text that ends in a backslash the brackets count again.
    expect(() => read(`["\\\\",${nested(60)}]`)).toThrow("nested more than 48 deep");
  });

  it.each(["", "{", '"', '["\\', "nul", "{'a':1}"])("refuses %j", (text) => {
    expect(() => read(text)).toThrow("file: is not JSON. Mend it.");
  });
});
