import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { InputError } from "../../../src/core/errors.ts";
import { jobJsonSchema, jobToData, parseJob, resolveActual } from "../../../src/core/job/index.ts";

const least = { fettle: { instrument: 1 }, instrument: { kind: "guitar", strings: 6 } };

function read(name: string): unknown {
  return parse(readFileSync(`examples/${name}.yaml`, "utf8"));
}

describe("parseJob", () => {
  it("takes the least that can be said", () => {
    expect(parseJob(least).file.instrument.strings).toBe(6);
  });

  it.each([
    ["no mapping", [], /^job file: /],
    ["no versions", { instrument: {} }, /^fettle: is missing/],
    [
      "a version that is no number",
      { ...least, fettle: { instrument: "one" } },
      /^fettle\.instrument: must be a whole number/,
    ],
    ["no instrument", { fettle: { job: 1 }, job: {} }, /^instrument: is missing/],
    ["a misspelt section", { ...least, instrumnt: {} }, /^instrumnt: is not a section/],
    [
      "a misspelt key",
      { ...least, instrument: { ...least.instrument, nekc: {} } },
      /^instrument\.nekc: is not a key.*Check its spelling/,
    ],
    [
      "a misspelt key deep down",
      { ...least, instrument: { ...least.instrument, neck: { scaleLenght: 648 } } },
      /^instrument\.neck\.scaleLenght: is not a key.*648/,
    ],
    ["a wrong kind", { ...least, instrument: { kind: "banjo", strings: 6 } }, /^instrument\.kind: cannot be "banjo"/],
    [
      "too many strings",
      { ...least, instrument: { kind: "guitar", strings: 14 } },
      /^instrument\.strings: cannot be 14/,
    ],
    [
      "a list where a length belongs",
      { ...least, instrument: { ...least.instrument, body: { thickness: [1] } } },
      /^instrument\.body\.thickness: cannot be a list of 1/,
    ],
  ])("refuses %s and names the path", (_, data, message) => {
    expect(() => parseJob(data)).toThrow(message);
  });

  it("keeps a section of a newer version unread and writes it back", () => {
    const newer = { ...least, fettle: { instrument: 1, parts: 7 }, parts: { anything: [1, 2] } };
    const parsed = parseJob(newer);
    expect(parsed.kept).toEqual([
      { name: "parts", version: 7, data: { anything: [1, 2] }, why: "version 7; this program reads up to 1" },
    ]);
    expect(parsed.file.parts).toBeUndefined();
    expect(jobToData(parsed)).toEqual(newer);
  });

  it("keeps an area that it does not know", () => {
    const parsed = parseJob({ ...least, fettle: { instrument: 1, lamps: 2 }, lamps: { bright: true } });
    expect(parsed.kept[0]).toMatchObject({ name: "lamps", version: 2 });
  });

  it("brings an older section up, one version at a time", () => {
    const upgrades = { settings: { 0: undefined as never } };
    // A made-up history: version 1 of `job` called the title "name"; the step from 1 to 2 must run before the check.
    expect(() => parseJob({ ...least, fettle: { instrument: 1, job: 1 }, job: { name: "x" } }, upgrades)).toThrow(
      /^job\.name: is not a key/,
    );
  });

  it("writes sections and keys in one order, whatever the order read", () => {
    const a = {
      fettle: { instrument: 1, job: 1 },
      job: { title: "t", id: "i" },
      instrument: { strings: 6, kind: "guitar" },
    };
    const b = {
      instrument: { kind: "guitar", strings: 6 },
      job: { id: "i", title: "t" },
      fettle: { job: 1, instrument: 1 },
    };
    expect(JSON.stringify(jobToData(parseJob(a)))).toBe(JSON.stringify(jobToData(parseJob(b))));
  });

  it.each(["lowtide", "ferry"])("reads and writes back examples/%s.yaml without loss", (name) => {
    const once = jobToData(parseJob(read(name)));
    expect(once).toEqual(read(name));
    expect(jobToData(parseJob(once))).toEqual(once);
  });

  it("gives a JSON Schema that accepts the examples and refuses a misspelt key", async () => {
    const { default: Ajv } = await import("ajv/dist/2020.js");
    const validate = new Ajv({ strict: false }).compile(jobJsonSchema());
    for (const name of ["lowtide", "ferry"]) {
      expect(validate(read(name)), JSON.stringify(validate.errors?.slice(0, 2))).toBe(true);
    }
    expect(validate({ ...least, instrument: { ...least.instrument, nekc: {} } })).toBe(false);
  });
});

describe("damaged files", () => {
  type Plain = { [key: string]: Plain } | Plain[] | string | number | boolean | null;
  const fixed: Plain[] = [null, "-3 mm", "1e999 mm", [], {}];
  const junk: fc.Arbitrary<Plain> = fc.oneof(
    fc.constantFrom(...fixed),
    fc.integer(),
    fc.string({ maxLength: 12 }),
    fc.boolean(),
  );

  /** Replaces, deletes or renames one node somewhere in the document. */
  function damage(data: Plain, seed: number, what: Plain, way: number): Plain {
    const places: { holder: Record<string, Plain> | Plain[]; key: string }[] = [];
    const walk = (node: Plain) => {
      if (typeof node !== "object" || node === null) return;
      for (const key of Object.keys(node)) {
        places.push({ holder: node as Record<string, Plain>, key });
        walk((node as Record<string, Plain>)[key] as Plain);
      }
    };
    const copy = structuredClone(data);
    walk(copy);
    const place = places[seed % places.length];
    if (!place) return copy;
    const holder = place.holder as Record<string, Plain>;
    if (way === 0) holder[place.key] = what;
    else if (way === 1) Reflect.deleteProperty(holder, place.key);
    else if (Array.isArray(place.holder)) place.holder.push(what);
    else holder[`${place.key}x`] = what;
    return copy;
  }

  it.each(["lowtide", "ferry"])(
    "%s, damaged anywhere: either it still resolves or an InputError names the path",
    (name) => {
      const data = read(name) as Plain;
      fc.assert(
        fc.property(fc.nat(100_000), junk, fc.constantFrom(0, 1, 2), (seed, what, way) => {
          try {
            resolveActual(parseJob(damage(data, seed, what, way)).file);
          } catch (error) {
            expect(error).toBeInstanceOf(InputError);
            expect((error as InputError).where).toMatch(
              /^(job file|fettle|job|instrument|parts|fit|readings|operations|settings|record|body|neck|strings|[a-z]+x?)/,
            );
            expect((error as InputError).remedy.length).toBeGreaterThan(3);
          }
        }),
        { numRuns: 400, seed: 20_26 },
      );
    },
  );
});
