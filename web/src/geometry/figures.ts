// Hours of sun as they are written: what rests on guesses with ≈ and fewer digits.

/** "6.8"; on guesses "≈ 7", "≈ 6½", under an hour "≈ 0.4": as the program's pictures have it. */
export function hours_says(hours: number, on_guesses = false): string {
  if (!on_guesses) return hours.toFixed(1);
  if (hours < 0.95) return `≈ ${hours.toFixed(1)}`;
  const halves = Math.round(hours * 2);
  return `≈ ${Math.floor(halves / 2)}${halves % 2 === 0 ? "" : "½"}`;
}
