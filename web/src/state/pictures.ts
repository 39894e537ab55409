// Pictures that lie under the sheet: kept with the garden, named by a thing of its document.
import { type Problem, Refused, send_file } from "../api";
import { garden, load_error } from "./garden";
import { plain_name } from "./weather";

const most_bytes = 24 * 2 ** 20;

/** Keeps a picture with the garden. Out: its name there, or what is wrong with it. */
export async function keep_picture(file: File): Promise<{ name: string | null; problems: Problem[] }> {
  const id = garden.peek();
  if (id === null) return { name: null, problems: [] };
  if (file.size > most_bytes)
    return { name: null, problems: [{ code: "too_large", where: "", message: "The picture is longer than 25 MB.", hint: "Save it smaller: 3,000 pixels across show a garden well enough." }] };
  try {
    const kept = await send_file("/api/gardens/{garden}/files", { path: { garden: id }, query: { name: plain_name(file.name) } }, file);
    return { name: kept.name, problems: [] };
  } catch (error) {
    if (error instanceof Refused) return { name: null, problems: error.problems.length > 0 ? error.problems : [error.problem] };
    load_error(error);
    return { name: null, problems: [] };
  }
}
