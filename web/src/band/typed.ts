// A time as it is typed: "15 Jun 16:20", "15 June", "June", "June to August", "growing".
import type { When } from "../state";
import { days_in_month } from "./axes";

export type Typed = { when: When | "growing"; note?: string } | { hint: string };

const names = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];
const example = "Such as 15 Jun 16:20, 15 June, June, June to August, or growing.";

function month_of(word: string | undefined): number | null {
  const plain = (word ?? "").toLowerCase().replace(/\.$/, "");
  if (plain.length < 3) return null;
  const found = names.findIndex((name) => name.startsWith(plain) || (plain === "sept" && name === "september"));
  return found < 0 ? null : found;
}

function day_text(month: number, date: number): string | null {
  const is_leap_day = month === 1 && date === 29;
  if (date < 1 || (date > days_in_month(month) && !is_leap_day)) return null;
  return `${String(month + 1).padStart(2, "0")}-${String(Math.min(date, days_in_month(month))).padStart(2, "0")}`;
}

/** "15 jun 16.20": with a dot it is a clock only where a day stands before it, for "15.06" is a day. */
function with_dot_after_day(text: string): RegExpExecArray | null {
  const found = /^(.*?)[\s,]+(?:at\s+)?(\d{1,2})\.(\d{2})()$/.exec(text) ?? /^()at\s+(\d{1,2})\.(\d{2})()$/.exec(text);
  return found !== null && (found[1] === "" || day_in(found[1] ?? "") !== null) ? found : null;
}

/** Takes the clock off the end: "16:20", "16h20", "4.20 pm", "4pm", "noon"; after a day "16.20" too. */
function clock_off(text: string): { rest: string; clock: number | null } | null {
  const noon = /^(.*?)[\s,]*\bnoon$/.exec(text);
  if (noon !== null) return { rest: noon[1] ?? "", clock: 12 };
  const found =
    /^(?:(.*?)[\s,]+)?(?:at\s+)?(\d{1,2})(?:[:h](\d{2})|h)\s*(am|pm)?$/.exec(text) ??
    /^(?:(.*?)[\s,]+)?(?:at\s+)?(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm)$/.exec(text) ??
    /^(?:(.*?)[\s,]+)?at\s+(\d{1,2})()()$/.exec(text) ??
    with_dot_after_day(text);
  if (found === null) return { rest: text, clock: null };
  const [, rest = "", hours, minutes, half] = found;
  let hour = Number(hours);
  if (half !== undefined && half !== "" && (hour < 1 || hour > 12)) return null;
  if (half === "pm" && hour < 12) hour += 12;
  if (half === "am" && hour === 12) hour = 0;
  const clock = hour + Number(minutes === "" ? 0 : (minutes ?? 0)) / 60;
  return clock > 24 || Number(minutes ?? 0) > 59 ? null : { rest, clock };
}

function day_in(text: string): string | null {
  const iso = /^(?:\d{4}-)?(\d{1,2})-(\d{1,2})$/.exec(text);
  if (iso !== null) return Number(iso[1]) > 12 || Number(iso[1]) < 1 ? null : day_text(Number(iso[1]) - 1, Number(iso[2]));
  const figures = /^(\d{1,2})\.\s?(\d{1,2})(?:\.(?:\s?\d{4})?)?$/.exec(text);
  if (figures !== null) {
    const month = Number(figures[2]);
    return month > 12 || month < 1 ? null : day_text(month - 1, Number(figures[1]));
  }
  const first = /^(\d{1,2})(?:st|nd|rd|th|\.)?\s*(?:of\s+)?([a-z]+\.?)(?:\s+\d{4})?$/.exec(text);
  const last = /^([a-z]+\.?)\s*(\d{1,2})(?:st|nd|rd|th)?$/.exec(text);
  const month = month_of(first?.[2] ?? last?.[1]);
  const date = first?.[1] ?? last?.[2];
  return month === null || date === undefined ? null : day_text(month, Number(date));
}

function months_in(text: string): number[] | null {
  const run = /^([a-z]+\.?)\s*(?:to|till|until|-|–)\s*([a-z]+\.?)$/.exec(text);
  const [from, to] = run === null ? [month_of(text), month_of(text)] : [month_of(run[1]), month_of(run[2])];
  if (from === null || to === null) return null;
  const months = [from];
  while (months[months.length - 1] !== to) months.push(((months[months.length - 1] as number) + 1) % 12);
  return months;
}

const leap_note = "29 February comes in leap years alone: this is the 28th, whose sun is the same to a few minutes.";

/** `day` is the one that a clock alone belongs to. */
export function typed_when(typed: string, day: string): Typed {
  const read = read_when(typed, day);
  const is_leap_day = "when" in read && read.when !== "growing" && read.when.kind !== "months" && read.when.day === "02-28" && /\b29\b/.test(typed);
  return is_leap_day ? { ...read, note: leap_note } : read;
}

function read_when(typed: string, day: string): Typed {
  const text = typed.trim().toLowerCase().replace(/\s+/g, " ");
  if (text === "" || /^growing( months| season)?$/.test(text)) return { when: "growing" };
  if (/^(the )?(whole )?year$/.test(text)) return { when: { kind: "months", months: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11] } };
  const taken = clock_off(text);
  if (taken === null) return { hint: "A clock runs from 0:00 to 24:00." };
  const { rest, clock } = taken;
  const of = rest.trim().replace(/,$/, "");
  if (clock !== null) {
    const named = of === "" ? day : day_in(of);
    if (named !== null) return { when: { kind: "moment", day: named, clock } };
    if (months_in(of) !== null) return { hint: "Which day of the month? Such as 15 Jun 16:20." };
    return { hint: example };
  }
  const months = months_in(of);
  if (months !== null) return { when: { kind: "months", months } };
  const named = day_in(of);
  if (named !== null) return { when: { kind: "day", day: named } };
  if (/\d/.test(of) && month_of(/[a-z]{3,}/.exec(of)?.[0]) !== null) return { hint: "That month has no such day." };
  return { hint: example };
}
