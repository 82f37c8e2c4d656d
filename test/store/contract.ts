/** What every keeper promises (docs/spec/log.md, LO10 and on), asked of each of them. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import { type Keeper, MOST_PHOTOGRAPH_BYTES } from "../../src/store/index.ts";
import { entryAt, hashOf, pictureOf, timeAt, titleAt } from "../support/log-entries.ts";

export interface Kept {
  /** Opens an empty keeper. */
  fresh(): Promise<Keeper>;
  /** Closes it and opens the same again; left out where nothing outlives the closing. */
  again?(keeper: Keeper): Promise<Keeper>;
}

export function keepsItsPromises(name: string, kept: Kept): void {
  describe(`${name} keeps its promises`, () => {
    let keeper: Keeper;
    beforeEach(async () => {
      keeper = await kept.fresh();
    });
    afterEach(() => keeper.close());

    const body = entryAt(1, "/instrument/body/thickness", { value: "44.5 mm", "~odd/key\u0000": [1, null, "½ Ω 🎸"] });
    const gone = entryAt(2, "/parts/#bridge", undefined);
    const other = entryAt(3, "/job/title", "Ferry", { job: "ferry", device: "phone" });

    it("[LO10] gives back what was appended, as it was and in the order in which it came", async () => {
      expect(await keeper.append([other, body])).toEqual({ added: 2 });
      expect(await keeper.append([gone])).toEqual({ added: 1 });
      expect(JSON.stringify(await keeper.entriesOf("lowtide"))).toBe(JSON.stringify([body, gone]));
      expect(await keeper.entriesOf("ferry")).toEqual([other]);
      expect(await keeper.entriesOf("nobody")).toEqual([]);
    });

    it("[LO11] passes over an entry that is there, alone or among new ones, and twice in one batch", async () => {
      await keeper.append([body]);
      expect(await keeper.append([body])).toEqual({ added: 0 });
      expect(await keeper.append([gone, body, gone, other])).toEqual({ added: 2 });
      expect(await keeper.append([])).toEqual({ added: 0 });
      expect((await keeper.since(0, 10)).entries).toEqual([body, gone, other]);
      expect((await keeper.jobs({ limit: 10 })).jobs.map(({ id, entries }) => [id, entries])).toEqual([
        ["ferry", 1],
        ["lowtide", 2],
      ]);
    });

    it("[LO10] gives a batch of thousands in pieces, none twice and none missing", async () => {
      const many = Array.from({ length: 2300 }, (_, index) => entryAt(index, `/notes/n${index}`, index));
      expect(await keeper.append(many)).toEqual({ added: many.length });
      expect(await keeper.append([...many].reverse())).toEqual({ added: 0 });
      const read = [];
      let here = await keeper.since(0, 1000);
      read.push(...here.entries);
      expect(here.more).toBe(true);
      while (here.more) {
        here = await keeper.since(here.place, 1000);
        read.push(...here.entries);
      }
      expect(read).toEqual(many);
      expect(await keeper.since(here.place, 1000)).toEqual({ entries: [], place: here.place, more: false });
      expect(await keeper.since(here.place - 1, 1)).toEqual({ entries: [many.at(-1)], place: here.place, more: false });
    });

    it("[LO12] appendings at the same time are each whole", async () => {
      const batches = Array.from({ length: 8 }, (_, batch) =>
        Array.from({ length: 20 }, (_, index) =>
          entryAt(index, `/n/b${batch}x${index}`, index, { device: `dev${batch}` }),
        ),
      );
      const added = await Promise.all(batches.map((batch) => keeper.append(batch)));
      expect(added.map((one) => one.added)).toEqual(batches.map(() => 20));
      const { entries } = await keeper.since(0, 1000);
      for (const batch of batches) {
        const start = entries.findIndex(({ id }) => id === batch[0]?.id);
        expect(entries.slice(start, start + 20)).toEqual(batch);
      }
      expect((await keeper.jobs({ limit: 1 })).jobs[0]?.entries).toBe(160);
    });

    it("[LO13] lists jobs, the last changed first, and those changed together always alike", async () => {
      const at = timeAt(30);
      await keeper.append([
        titleAt(1, "Ash body", "ash"),
        titleAt(2, "Birch", "b-one", { at }),
        titleAt(3, "Birch", "b_two", { at }),
        titleAt(4, "Birch", "B-three", { at }),
        entryAt(50, "/job/notes", "later", { job: "ash" }),
        entryAt(5, "/job/notes", "earlier", { job: "ash" }),
        entryAt(6, "/job/notes", "nothing else", { job: "untitled" }),
      ]);
      const all = await keeper.jobs({ limit: 10 });
      expect(all).toEqual({
        total: 5,
        jobs: [
          { id: "ash", title: "Ash body", changed: timeAt(50), entries: 3 },
          { id: "b_two", title: "Birch", changed: at, entries: 1 },
          { id: "b-one", title: "Birch", changed: at, entries: 1 },
          { id: "B-three", title: "Birch", changed: at, entries: 1 },
          { id: "untitled", title: "", changed: timeAt(6), entries: 1 },
        ],
      });
      expect(await keeper.jobs({ limit: 2, offset: 1 })).toEqual({ total: 5, jobs: all.jobs.slice(1, 3) });
      expect(await keeper.jobs({ limit: 2, offset: 9 })).toEqual({ total: 5, jobs: [] });
    });

    it("[LO14] takes the title of the latest entry, whichever came first; a taking away empties it", async () => {
      const title = async () => (await keeper.jobs({ limit: 1 })).jobs[0]?.title;
      await keeper.append([titleAt(5, "Second", "ash")]);
      await keeper.append([titleAt(1, "First", "ash")]);
      expect(await title()).toBe("Second");
      await keeper.append([titleAt(5, "Same minute, later device", "ash", { device: "phone" })]);
      expect(await title()).toBe("Same minute, later device");
      await keeper.append([titleAt(8, undefined, "ash"), titleAt(7, "Seventh", "ash")]);
      expect(await title()).toBe("");
      await keeper.append([entryAt(9, "/job/title", ["no", "text"], { job: "ash" })]);
      expect(await title()).toBe("");
      await keeper.append([titleAt(10, `Line\nbreak \ud83c ${"x".repeat(300)}`, "ash")]);
      expect(await title()).toBe(`Line break \ufffd ${"x".repeat(187)}`);
    });

    it.each([
      ["bass", ["long"]],
      ["ÜBER", ["odd"]],
      ["u\u0308ber", ["odd"]],
      ["100%", ["percent"]],
      ["_", ["odd"]],
      ["\\", ["odd"]],
      ["b", ["odd", "long"]],
      ["nothing like it", []],
      ["", ["percent", "odd", "long"]],
    ])("[LO13] finds jobs by letters of the title, in any case: %j", async (search, ids) => {
      await keeper.append([
        titleAt(1, "Long-scale BASS", "long"),
        titleAt(2, "über_b\\ridge", "odd"),
        titleAt(3, "100% maple", "percent"),
      ]);
      const { total, jobs } = await keeper.jobs({ search, limit: 5 });
      expect(jobs.map(({ id }) => id)).toEqual(ids);
      expect(total).toBe(ids.length);
      expect((await keeper.jobs({ search, limit: 1, offset: 1 })).jobs.map(({ id }) => id)).toEqual(ids.slice(1, 2));
    });

    it("[LO15] keeps a photograph once, under its hash", async () => {
      const pictures = [pictureOf("image/jpeg", 1), pictureOf("image/png", 2), pictureOf("image/webp", 3, 200_000)];
      for (const one of pictures) await keeper.keepPhotograph(one);
      await keeper.keepPhotograph(pictures[0]!);
      expect(await keeper.photographs()).toEqual(pictures.map(({ hash }) => hash).sort());
      for (const { hash, type, bytes } of pictures) {
        const back = await keeper.photograph(hash);
        expect(back?.type).toBe(type);
        expect(hashOf(back!.bytes)).toBe(hashOf(bytes));
      }
      expect(await keeper.photograph("0".repeat(64))).toBeUndefined();
    });

    const { hash, type, bytes } = pictureOf("image/png", 9);
    const text = new TextEncoder().encode("<svg onload='alert(1)'/>");
    it.each([
      ["another hash", { hash: "0".repeat(64), type, bytes }, /^photograph\.hash: is not the SHA-256/],
      ["a path for a hash", { hash: "../../etc/passwd", type, bytes }, /^photograph\.hash: is not 64 hexa/],
      ["a hash in capitals", { hash: hash.toUpperCase(), type, bytes }, /^photograph\.hash: is not 64 hexa/],
      ["a line break after it", { hash: `${hash}\n`, type, bytes }, /^photograph\.hash: is not 64 hexa/],
      [
        "another type",
        { hash, type: "image/jpeg" as const, bytes },
        /^photograph\.type: says image\/jpeg, but .* image\/png\./,
      ],
      ["no picture", { hash: hashOf(text), type, bytes: text }, /^photograph\.bytes: do not begin like/],
      ["nothing", { hash: hashOf(new Uint8Array()), type, bytes: new Uint8Array() }, /^photograph\.bytes: do not/],
    ])("[LO15] refuses a photograph with %s", async (_what, wrong, message) => {
      const refused = await keeper.keepPhotograph(wrong).catch((error: unknown) => error);
      expect(refused).toBeInstanceOf(InputError);
      expect(String((refused as Error).message)).toMatch(message);
      expect(await keeper.photographs()).toEqual([]);
    });

    it("[LO15] refuses a photograph over the limit, and takes one at it", async () => {
      const largest = pictureOf("image/jpeg", 4, MOST_PHOTOGRAPH_BYTES);
      await keeper.keepPhotograph(largest);
      expect((await keeper.photograph(largest.hash))?.bytes.length).toBe(MOST_PHOTOGRAPH_BYTES);
      const over = pictureOf("image/jpeg", 4, MOST_PHOTOGRAPH_BYTES + 1);
      await expect(keeper.keepPhotograph(over)).rejects.toThrow(/has 12000001 bytes, more than 12 million/);
    });

    it.each(["", "../secret", "x".repeat(64)])("[LO15] asks for no photograph named %j", async (name) => {
      await expect(keeper.photograph(name)).rejects.toThrow(InputError);
    });

    it("[LO16] keeps notes, the last one of a key", async () => {
      expect(await keeper.note("device")).toBeUndefined();
      await keeper.setNote("device", "bench");
      await keeper.setNote("device", "phone");
      await keeper.setNote("", "no key");
      expect([await keeper.note("device"), await keeper.note("")]).toEqual(["phone", "no key"]);
      expect((await keeper.since(0, 10)).entries).toEqual([]);
    });

    const { again } = kept;
    if (again)
      it("[LO10] holds everything after it was closed and opened again", async () => {
        const picture = pictureOf("image/jpeg", 1);
        await keeper.append([body, gone, titleAt(9, "Lowtide", "lowtide"), other]);
        await keeper.keepPhotograph(picture);
        await keeper.setNote("device", "bench");
        const [log, list] = [await keeper.since(0, 10), await keeper.jobs({ limit: 10 })];
        keeper = await again(keeper);
        expect(await keeper.since(0, 10)).toEqual(log);
        expect(await keeper.jobs({ limit: 10 })).toEqual(list);
        expect(hashOf((await keeper.photograph(picture.hash))!.bytes)).toBe(picture.hash);
        expect(await keeper.note("device")).toBe("bench");
        expect(await keeper.append([body])).toEqual({ added: 0 });
        await keeper.append([entryAt(20, "/a", 1)]);
        expect((await keeper.since(log.place, 10)).entries.map(({ path }) => path)).toEqual(["/a"]);
      });
  });
}
