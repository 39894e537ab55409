export * from "./types";
export { ask, ask_bytes, ask_text, Gone, link_to, Refused, send, send_file, send_for_bytes } from "./client";
export { cell_hours, unpack_field, unpack_print } from "./binary";
