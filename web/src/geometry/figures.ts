// Hours of sun as they are written: what rests on guesses with ≈ and fewer digits.

/** What is won: "+0.4", "−0.3", "±0"; on guesses "≈ +4½", under an hour "≈ +0.4". */
export function gain_says(by: number, on_guesses = false): string {
  const size = Math.abs(by);
  if (size.toFixed(1) === "0.0") return on_guesses ? "≈ 0" : "±0";
  const sign = by < 0 ? "−" : "+";
  return on_guesses ? `≈ ${sign}${hours_says(size, true).slice(2)}` : `${sign}${size.toFixed(1)}`;
}

/** "6.8"; on guesses "≈ 7", "≈ 6½", under an hour "≈ 0.4": as the program's pictures have it. */
export function hours_says(hours: number, on_guesses = false): string {
  if (!on_guesses) return hours.toFixed(1);
  if (hours < 0.95) return `≈ ${hours.toFixed(1)}`;
  const halves = Math.round(hours * 2);
  return `≈ ${Math.floor(halves / 2)}${halves % 2 === 0 ? "" : "½"}`;
}
