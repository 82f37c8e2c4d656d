export { type Crossing, crossings, type Polyline } from "./crossings.ts";
export { groundTree } from "./ground-tree.ts";
export type { BodyShape, Lug, Plate, PlateBody, PlateBounds, PlatePoint, Wire, WireKind } from "./plate.ts";
export { type Doubt, type DoubtKind, type ReadDrawing, type ReadLine, readBack } from "./read-back.ts";
export { type RefusedWire, type RoutedPlate, type RoutedWire, type RouteOptions, routePlate } from "./route.ts";
