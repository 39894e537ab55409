// Fields and sun prints as they come over the wire: the head's length, the head, the cells.
import type { Field, FieldHead, Print, PrintHead } from "./types";

function head_and_rest(bytes: ArrayBuffer): { head: unknown; from: number } {
  if (bytes.byteLength < 4) throw new Error("The answer ends before its head.");
  const length = new DataView(bytes).getUint32(0, true);
  if (4 + length > bytes.byteLength) throw new Error("The answer ends within its head.");
  const text = new TextDecoder().decode(new Uint8Array(bytes, 4, length));
  return { head: JSON.parse(text), from: 4 + length };
}

const is_low_first = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

export function unpack_field(bytes: ArrayBuffer): Field {
  const { head, from } = head_and_rest(bytes);
  const field_head = head as FieldHead;
  const count = field_head.columns * field_head.rows;
  if (bytes.byteLength - from !== 2 * count) throw new Error("The field is not of its size.");
  const Cells = field_head.signed ? Int16Array : Uint16Array;
  if (is_low_first) return { head: field_head, cells: new Cells(bytes.slice(from)) };
  const view = new DataView(bytes, from);
  const cells = new Cells(count);
  for (let i = 0; i < count; ++i) cells[i] = view.getUint16(2 * i, true);
  return { head: field_head, cells };
}

export function unpack_print(bytes: ArrayBuffer): Print {
  const { head, from } = head_and_rest(bytes);
  const print_head = head as PrintHead;
  const count = 4 * print_head.columns * print_head.rows;
  if (bytes.byteLength - from !== count) throw new Error("The sun print is not of its size.");
  return { head: print_head, cells: new Uint8Array(bytes, from, count) };
}

/** Hours of a cell; null where there is none. */
export function cell_hours(field: Field, index: number): number | null {
  const value = field.cells[index];
  if (value === undefined || value === (field.head.signed ? -32768 : 65535)) return null;
  return value / 100;
}
