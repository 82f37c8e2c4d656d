import { describe, expect, it } from "vitest";
import { dataFolder, type Surroundings } from "../../src/app/data-folder.ts";

const linux: Surroundings = { env: {}, platform: "linux", home: "/h/anna", here: "/h/anna/guitars" };

describe("[SD1] where the log is kept", () => {
  it.each([
    ["what was asked for", "/x/y", { env: { FETTLE_DATA: "/z" } }, "/x/y"],
    ["what was asked for, from here", "y", {}, "/h/anna/guitars/y"],
    ["the variable", undefined, { env: { FETTLE_DATA: "/z", XDG_DATA_HOME: "/d" } }, "/z"],
    ["the variable, from here", undefined, { env: { FETTLE_DATA: "z" } }, "/h/anna/guitars/z"],
    ["the system's folder for data", undefined, { env: { XDG_DATA_HOME: "/d" } }, "/d/fettle"],
    ["the usual one if that is not whole", undefined, { env: { XDG_DATA_HOME: "d" } }, "/h/anna/.local/share/fettle"],
    ["the usual one if that is empty", undefined, { env: { XDG_DATA_HOME: "" } }, "/h/anna/.local/share/fettle"],
    ["the usual one", undefined, {}, "/h/anna/.local/share/fettle"],
    ["macOS", undefined, { platform: "darwin" }, "/h/anna/Library/Application Support/fettle"],
    [
      "Windows",
      undefined,
      { platform: "win32", home: "D:\\anna", env: { APPDATA: "D:\\anna\\Roaming" } },
      "D:\\anna\\Roaming\\fettle",
    ],
    [
      "Windows without its variable",
      undefined,
      { platform: "win32", home: "D:\\anna" },
      "D:\\anna\\AppData\\Roaming\\fettle",
    ],
  ])("%s", (_what, asked, given, expected) => {
    expect(dataFolder(asked, { ...linux, ...given })).toBe(expected);
  });

  it("refuses an empty name", () => {
    expect(() => dataFolder(" ", linux)).toThrow("--data: is empty. Name a folder, e.g. --data ~/fettle.");
  });
});
