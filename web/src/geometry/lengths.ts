// Lengths as people type and read them.
const units: Record<string, number> = { m: 1, cm: 0.01, mm: 0.001, yd: 0.9144, ft: 0.3048, "'": 0.3048, in: 0.0254, '"': 0.0254 };

/** With plain signs for those of print: 7’ 6” as 7' 6", a minus as a hyphen. */
const plain_signs = (text: string) =>
  text.replace(/[’‘′´]/g, "'").replace(/[”“″]|''/g, '"').replace(/[−–]/g, "-").replace(/\u00a0/g, " ").replace(/½/g, " 1/2").replace(/¼/g, " 1/4").replace(/¾/g, " 3/4");

/** A comma before decimals as a point; null where it may part thousands: "1,200", "1.234,5". */
function with_points(text: string): string | null {
  for (const run of text.match(/\d[\d.,]*/g) ?? [])
    if (run.includes(",") && (!/^\d+,\d*$/.test(run) || /^[1-9]\d*,\d{3}$/.test(run))) return null;
  return text.replace(/,/g, ".");
}

/** A figure as it was typed, in plain signs; null where its comma can be read in two ways. */
export const tidy_figure = (text: string): string | null => with_points(plain_signs(text.trim()));

/** What to type instead of a figure that can be read in two ways. */
export function comma_hint(text: string): string | null {
  const run = /\d[\d.,]*/.exec(tidy_figure(text) === null ? text : "")?.[0];
  if (run === undefined) return null;
  if (/^\d+,\d{3}$/.test(run)) return `${run.replace(",", "")} or ${Number(run.replace(",", "."))}?`;
  // Of a comma and a point the later parts the decimals.
  const bare = run.includes(".") ? run.replace(/[.,](?=.*[.,])/g, "").replace(",", ".") : run.replace(/,/g, "");
  return `Write nothing between thousands: ${bare}.`;
}

/** "0.4", "0,4 m", "40 cm", "-1 ft 6 1/2 in" in metres; null for anything else. */
export function metres_in(text: string, imperial = false): number | null {
  const plain = tidy_figure(text)?.toLowerCase();
  if (plain === undefined) return null;
  const signed = /^([+-]?)\s*(.+)$/.exec(plain);
  if (signed === null) return null;
  let sum = 0;
  let rest = signed[2] as string;
  for (let first = true; rest !== ""; first = false) {
    const part = /^(?:(\d+(?:\.\d*)?|\.\d+)(?![\d.]*\s*\/))?\s*(?:(\d+)\s*\/\s*([1-9]\d*))?\s*(mm|cm|m|yd|ft|in|'|")?\s*/.exec(rest);
    if (part === null || (part[1] === undefined && part[2] === undefined)) return null;
    const unit = part[4] ?? (first ? (imperial ? "ft" : "m") : null);
    if (unit === null) return null;
    sum += (Number(part[1] ?? 0) + Number(part[2] ?? 0) / Number(part[3] ?? 1)) * (units[unit] as number);
    rest = rest.slice(part[0].length);
  }
  return signed[1] === "-" ? -sum : sum;
}

/** 1.2 as "1.2 m", or "3 ft 11 in". */
export function length_says(metres: number, imperial = false): string {
  const sign = metres < 0 ? "−" : "";
  const size = Math.abs(metres);
  if (!imperial) return `${sign}${Number(size.toFixed(2))} m`;
  const inches = Math.round(size / 0.0254);
  const [feet, over] = [Math.floor(inches / 12), inches % 12];
  return `${sign}${[feet > 0 ? `${feet} ft` : "", over > 0 || feet === 0 ? `${over} in` : ""].filter(Boolean).join(" ")}`;
}

/** 4.32 as "4.3 m²", or "47 sq ft". */
export const area_says = (square_metres: number, imperial = false): string =>
  imperial ? `${Math.round(square_metres / 0.3048 ** 2)} sq ft` : `${square_metres.toFixed(1)} m²`;

/** A message's metres in feet: "it can be 0.1 m to 120 m" as "it can be 4 in to 393 ft". What was
typed in feet needs no second figure. A far limit needs no inches, and is not made farther. */
export function metres_as_feet(text: string): string {
  const once = text.replace(/("[^"]*(?:ft|in|'|\\")[^"]*"+) \([-−]?[\d.]+ m\)/g, "$1");
  const placed = once.replace(/\[(-?\d+(?:\.\d+)?), (-?\d+(?:\.\d+)?)\]/g, (_, x: string, y: string) => `[${length_says(Number(x), true)}, ${length_says(Number(y), true)}]`);
  return placed.replace(/([-−]?)(\d+(?:\.\d+)?) m(?![²³\w])/g, (_, sign: string, figure: string) => {
    const metres = Number(figure);
    const says = metres < 4 ? length_says(metres, true) : `${Math.floor(metres / 0.3048)} ft`;
    return `${sign === "" ? "" : "−"}${says}`;
  });
}
