// Addresses of what can be taken out of a garden.
import { link_to } from "../api";
import { time_asked } from "./light";
import { when } from "./when";

export function link_to_picture(garden: string, scheme: string, format: "svg" | "png", place?: string): string {
  const query = { scheme, format, ...time_asked(when.value), print: place };
  return link_to("/api/gardens/{garden}/picture", { path: { garden }, query });
}

export function link_to_table(garden: string, scheme: string, of: "places" | "field" = "places"): string {
  return link_to("/api/gardens/{garden}/table", { path: { garden }, query: { scheme, of } });
}

export function link_to_document(garden: string): string {
  return link_to("/api/gardens/{garden}/document", { path: { garden } });
}

export function link_to_file(garden: string, name: string): string {
  return link_to("/api/gardens/{garden}/files", { path: { garden }, query: { name } });
}
