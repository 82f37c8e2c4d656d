/** The reader of DXF files behind one typed door: its own declarations disagree with how it is loaded. */
import parser from "dxf-parser";

export interface DxfEntity {
  readonly type: string;
  readonly layer: string;
  readonly center?: { readonly x: number; readonly y: number };
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
  readonly text?: string;
  readonly startPoint?: { readonly x: number; readonly y: number };
  readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[];
  readonly shape?: boolean;
  readonly extendedData?: { readonly applicationName: string; readonly customStrings: readonly string[] };
}

export interface DxfFile {
  readonly header: Readonly<Record<string, unknown>>;
  readonly tables: { readonly layer: { readonly layers: Readonly<Record<string, { readonly name: string }>> } };
  readonly entities: readonly DxfEntity[];
}

export function parseDxf(text: string): DxfFile {
  const made: { parseSync(source: string): unknown } = new parser();
  return made.parseSync(text) as DxfFile;
}
