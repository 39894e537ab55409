// Figures as they are written: guessed ones with ≈, ranges, gains with their sign.

/** 6.83 as "6.8"; what is not known as a dash. */
export function figure(value: number | null | undefined, digits = 1): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return "–";
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text.replace("-", "−");
}

/** What rests on a guess is told with ≈. */
export function about(text: string, is_guessed: boolean): string {
  return is_guessed && text !== "–" ? `≈ ${text}` : text;
}

/** "5–6 h"; where both ends are written alike, one of them. */
export function range(low: number, high: number, unit: string, digits = 0): string {
  const [from, to] = [figure(Math.min(low, high), digits), figure(Math.max(low, high), digits)];
  const between = from.startsWith("−") || to.startsWith("−") ? " to " : "–";
  return `${from === to ? from : `${from}${between}${to}`}${unit === "" ? "" : ` ${unit}`}`;
}


/** Light for growth has two digits that mean something; on guesses one less. */
export function light(mol: number, on_guesses = false): string {
  return mol >= 10 || (on_guesses && mol >= 0.95) ? mol.toFixed(0) : mol.toFixed(1);
}

/** Hours of a year, whole; less than half of one is a dash; on guesses two digits. */
export function year_hours(hours: number, on_guesses = false): string {
  if (hours < 0.5) return "–";
  const digit = on_guesses && hours >= 10 ? 10 ** (Math.floor(Math.log10(hours)) - 1) : 1;
  return about((Math.round(hours / digit) * digit).toLocaleString("en").replace(",", " "), on_guesses);
}

/** Metres as a plain figure without idle noughts: 2.30 as "2.3". */
export function plain(metres: number): string {
  return String(Number(metres.toFixed(3)));
}

export function listed(words: readonly string[], last = "and"): string {
  if (words.length < 2) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} ${last} ${words[words.length - 1]}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A value as the program writes it, for reading: true minus signs, no quotes, a pair without its brackets. */
export function read_value(value: string): string {
  const bare = value.replace(/"((?:[^"\\]|\\.)*)"/g, (_, text: string) => text.replace(/\\(.)/g, "$1")).replace(/(^|[\s[(])-(?=\d)/g, "$1−");
  return /^\[[^[\]]*\]$/.test(bare) ? bare.slice(1, -1) : bare;
}

/** 0.254 as "25 %". */
export const share_says = (share: number): string => `${Math.round(100 * share)} %`;

/** With its full stop, if it has none. */
export function sentence(text: string): string {
  return text === "" || /[.?!]$/.test(text) ? text : `${text}.`;
}

/** A figure of the document as it is shown: its bare lengths are metres, in whatever unit people type them. */
export function with_unit(typed: string, type: string, imperial: boolean): string {
  if (!imperial || !/^[-+]?[\d._]+(?:e[-+]?\d+)?$/i.test(typed)) return typed;
  if (type === "length" || type === "stem") return `${typed} m`;
  return type === "temperature" ? `${typed} C` : typed;
}
