import { expect, test } from "vitest";
import { cell_hours, unpack_field, unpack_print } from "./binary";

function packed(head: object, cells: number[]): ArrayBuffer {
  const text = new TextEncoder().encode(JSON.stringify(head));
  const bytes = new Uint8Array(4 + text.length + cells.length);
  new DataView(bytes.buffer).setUint32(0, text.length, true);
  bytes.set(text, 4);
  bytes.set(cells, 4 + text.length);
  return bytes.buffer;
}

const head = { corner_m: [0, 0], cell_m: 0.1, columns: 2, rows: 1, most_h: 12, exact: true, beds: {}, signed: false };

test("a field's cells are hundredths of an hour, the low byte first", () => {
  const field = unpack_field(packed(head, [0x20, 0x03, 0xff, 0xff]));
  expect(cell_hours(field, 0)).toBe(8);
  expect(cell_hours(field, 1)).toBeNull();
});

test("the head's length may be odd", () => {
  const longer = { ...head, beds: { a: 1 } };
  for (const more of ["", "x", "xx", "xxx"])
    expect(cell_hours(unpack_field(packed({ ...longer, more }, [100, 0, 200, 0])), 1)).toBe(2);
});

test("differences are signed", () => {
  const field = unpack_field(packed({ ...head, signed: true }, [0x9c, 0xff, 0x00, 0x80]));
  expect(cell_hours(field, 0)).toBe(-1);
  expect(cell_hours(field, 1)).toBeNull();
});

test("a field that is cut short is not taken", () => {
  expect(() => unpack_field(packed(head, [1, 2, 3]))).toThrow();
  expect(() => unpack_field(new ArrayBuffer(3))).toThrow();
  expect(() => unpack_field(new Uint8Array([200, 0, 0, 0, 1]).buffer)).toThrow();
});

test("a sun print has four bytes a cell", () => {
  const print = unpack_print(packed({ columns: 1, rows: 2, takers: [] }, [255, 3, 255, 255, 0, 1, 0, 254]));
  expect(print.cells.length).toBe(8);
  expect(print.cells[4]).toBe(0);
  expect(print.cells[7]).toBe(254);
});
