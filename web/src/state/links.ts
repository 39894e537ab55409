// Addresses of what can be taken out of a garden.
import { link_to } from "../api";
import { compared } from "./garden";
import { time_asked } from "./light";
import { when } from "./when";

export function link_to_picture(garden: string, scheme: string, format: "svg" | "png", place?: string): string {
  const query = { scheme, format, ...time_asked(when.value), print: place };
  return link_to("/api/gardens/{garden}/picture", { path: { garden }, query });
}

/** Every month, or the day or moment shown; of two schemes side by side both. */
function table_time(of: "places" | "field"): { day?: string; clock?: number; against?: string } {
  if (of === "field") return {};
  const now = when.value;
  return { ...(now.kind === "months" ? {} : time_asked(now)), ...(compared.value === null ? {} : { against: compared.value }) };
}

export function link_to_table(garden: string, scheme: string, of: "places" | "field" = "places"): string {
  return link_to("/api/gardens/{garden}/table", { path: { garden }, query: { scheme, of, ...table_time(of) } });
}

export function link_to_document(garden: string): string {
  return link_to("/api/gardens/{garden}/document", { path: { garden } });
}

export function link_to_file(garden: string, name: string): string {
  return link_to("/api/gardens/{garden}/files", { path: { garden }, query: { name } });
}
