/** How a section written by an older program is brought to the next version. Append-only, one step a version. */
import type { SectionName } from "./schema.ts";

/** upgrades[section][n] takes a section of version n to version n + 1. */
export type Upgrades = Partial<Record<SectionName, Readonly<Record<number, (section: unknown) => unknown>>>>;

/** All sections are at version 1: nothing to bring up yet. */
export const SECTION_UPGRADES: Upgrades = {};
