import "./sheet.css";
import "./key.css";
import "./list.css";
import "./draw.css";
export { Sheet } from "./sheet";
export { list_open, ThingList } from "./list";
export { scheme_says } from "./key";
export { taker_inks } from "./taker_inks";
export { TapeForm } from "./tape_form";
