export { aloneIn } from "./alone.ts";
export {
  type Checked,
  type Finding,
  type FindingKind,
  findingsOf,
  KNOB_HZ,
  type KnobReading,
  knobAlong,
  type Wanted,
  wayBetween,
} from "./checks/index.ts";
export type { ResistanceReading } from "./coil-network.ts";
export type { CoilPairing, CompassReading, FoundCoil, Kick, KickReading } from "./coil-signs.ts";
export { type ContactMap, faultsOf, requireContactMap } from "./contact-map.ts";
export { type Curve, curveOf } from "./curve.ts";
export { type MeterReading, ohmsBetween, type Resistor } from "./dc.ts";
export { type Facts, factsOf, HUM_HZ, type Phase, type StateFacts } from "./facts.ts";
export { type CoilNeed, type CoilSearch, type CoilsFound, findCoils } from "./find-coils.ts";
export { type ContactReading, type ContactSearch, type ContactsFound, findContacts } from "./find-contacts.ts";
export {
  type Heard,
  heardIn,
  humDb,
  humWord,
  LEVEL_HZ,
  levelDb,
  PARTLY_QUIET_DB,
  QUIET_DB,
  stringEmf,
  stringGroups,
  transfersAt,
} from "./hearing.ts";
export { checkNetlist, type Element, groupsOf, type Netlist } from "./netlist.ts";
export { readCapacitorCode, readPotCode, readResistorCode } from "./part-codes.ts";
export {
  type Battery,
  type Circuit,
  type Coil,
  type Fixed,
  type Jack,
  type Load,
  type Metal,
  OPEN_JACK,
  type Pairing,
  type State,
  type Switch,
  type Track,
  type Wire,
} from "./physical.ts";
export { nearestPreferred, type PreferredSeries } from "./preferred-values.ts";
export { type OutputSolver, outputSolver, type Sweep, sweep } from "./response.ts";
export { readSound, type Sound, type SoundNames, soundInWords, soundKey } from "./sounds.ts";
export { type SpiceOptions, type SpiceText, spiceText } from "./spice.ts";
export { copperFactor, type InState, inState, joinsOf, netlistOf, resistorsOf } from "./state.ts";
export { audiblePoints } from "./sweep-points.ts";
export { fiveDetentLever, leafToggle, lever, pushPull, rotary, type ToggleKind, toggle } from "./switch-kinds.ts";
export type { Taper } from "./taper.ts";
