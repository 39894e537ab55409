// Lengths as people type and read them.
const units: Record<string, number> = { m: 1, cm: 0.01, mm: 0.001, ft: 0.3048, "'": 0.3048, in: 0.0254, '"': 0.0254 };

/** "0.4", "0,4 m", "40 cm", "-1 ft 6 in" in metres; null for anything else. */
export function metres_in(text: string, imperial = false): number | null {
  const plain = text.trim().toLowerCase().replace(/,/g, ".").replace(/[−–]/g, "-");
  const signed = /^([+-]?)\s*(.+)$/.exec(plain);
  if (signed === null) return null;
  let sum = 0;
  let rest = signed[2] as string;
  for (let first = true; rest !== ""; first = false) {
    const part = /^(\d+(?:\.\d*)?|\.\d+)\s*(m|cm|mm|ft|in|'|")?\s*/.exec(rest);
    if (part === null) return null;
    const unit = part[2] ?? (first ? (imperial ? "ft" : "m") : null);
    if (unit === null) return null;
    sum += Number(part[1]) * (units[unit] as number);
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
