import { expect, test } from "vitest";

const order = ["api", "state", "geometry", "tools", "sheet", "band", "margin", "shell"];
const sources = import.meta.glob<string>("./*/**/*.{ts,tsx}", { query: "?raw", import: "default", eager: true });

test("a layer imports from itself and from those before it", () => {
  const wrong: string[] = [];
  for (const [file, text] of Object.entries(sources)) {
    const at = order.indexOf(file.split("/")[1] ?? "");
    for (const [, from = ""] of text.matchAll(/from\s+"(\.\.\/[^"]+)"/g)) {
      const other = from.replace(/^(\.\.\/)+/, "").split("/")[0] ?? "";
      if (order.indexOf(other) > at) wrong.push(`${file} imports ${from}`);
    }
  }
  expect(wrong).toEqual([]);
  expect(Object.keys(sources).length).toBeGreaterThan(30);
});
