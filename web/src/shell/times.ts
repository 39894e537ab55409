// Dates as a person says them.
import { clock_says, day_says } from "../state";

/** "today, 23:51", "25 November, 23:51", "3 March 2025". */
export function time_says(iso: string, now = new Date()): string {
  const then = new Date(iso);
  if (Number.isNaN(then.getTime())) return "";
  const clock = clock_says(then.getHours() + then.getMinutes() / 60);
  if (then.toDateString() === now.toDateString()) return `today, ${clock}`;
  const day = day_says(`${then.getMonth() + 1}-${then.getDate()}`);
  return then.getFullYear() === now.getFullYear() ? `${day}, ${clock}` : `${day} ${then.getFullYear()}`;
}
