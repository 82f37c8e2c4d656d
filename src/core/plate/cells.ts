/** Typed arrays read and written by place; a place outside them reads as 0. */
export type Cells = Uint8Array | Int32Array | Float64Array;

export function cell(cells: Cells, place: number): number {
  return cells[place] ?? 0;
}

export function addTo(cells: Cells, place: number, change: number): void {
  cells[place] = (cells[place] ?? 0) + change;
}
