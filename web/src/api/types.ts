// The contract's names, short.
import type { components } from "./contract";

type Schemas = components["schemas"];

export type About = Schemas["About"];
export type Problem = Schemas["Error"];
export type Refusal = Schemas["Refusal"];
export type Shelf = Schemas["Shelf"];
export type OnShelf = Schemas["OnShelf"];
export type Head = Schemas["Head"];
export type HeadIs = Schemas["HeadIs"];
export type FieldOfThing = Schemas["Field"];
export type Entry = Schemas["Entry"];
export type Thing = Schemas["Thing"];
export type Site = Schemas["Site"];
export type State = Schemas["State"];
export type SheetChanges = Schemas["SheetChanges"];
export type PieceChanges = Schemas["PieceChanges"];
export type WeatherFile = Schemas["WeatherFile"];
export type KeptFile = Schemas["KeptFile"];
export type Revision = Schemas["Revision"];
export type Revisions = Schemas["Revisions"];
export type Schema = Schemas["Schema"];
export type SchemaTable = Schemas["Table"];
export type SchemaKey = Schemas["Key"];
export type Month = Schemas["Month"];
export type Town = Schemas["Town"];
export type Towns = Schemas["Towns"];
export type Measure = Schemas["Measure"];
export type Measured = Schemas["Measured"];
export type Place = Schemas["Place"];
export type Places = Schemas["Places"];
export type Taker = Schemas["Taker"];
export type Takers = Schemas["Takers"];
export type Ink = Schemas["Ink"];
export type Section = Schemas["Section"];
export type Band = Schemas["Band"];
export type BandDay = Schemas["BandDay"];
export type Trace = Schemas["Trace"];
export type Finding = Schemas["Finding"];
export type Edit = Schemas["Edit"];
export type Try = Schemas["Try"];
export type FieldHead = Schemas["FieldHead"];
export type PrintHead = Schemas["PrintHead"];

/** Hours of sun, cell by cell from the lower left; in hundredths. */
export interface Field {
  head: FieldHead;
  cells: Int16Array | Uint16Array;
}

/** A sun print: four bytes for each column and row, rows from clock midnight. */
export interface Print {
  head: PrintHead;
  cells: Uint8Array;
}
