// Asking the program on this machine. The contract's types say what may be asked and what comes.
import type { paths } from "./contract";
import type { Problem, Refusal } from "./types";

/** The program said no: its words are for the person. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly problem: Problem,
    readonly problems: Problem[],
  ) {
    super(problem.message);
  }
}

/** Nobody answers. */
export class Gone extends Error {}

type Verb = "get" | "post";
type Asked<P extends keyof paths, V extends Verb> = Exclude<paths[P][V], undefined>;
type PathsWith<V extends Verb> = {
  [P in keyof paths]: [Asked<P, V>] extends [never] ? never : P;
}[keyof paths];
type Loose<T> = { [K in keyof T]?: T[K] | undefined };
type Parameters<O> = O extends { parameters: { path?: infer P; query?: infer Q } }
  ? { path?: P; query?: Loose<Exclude<Q, undefined>> }
  : never;
type Answer<O> = O extends { responses: infer R }
  ? R extends { 200: { content: { "application/json": infer T } } }
    ? T
    : R extends { 201: { content: { "application/json": infer T } } }
      ? T
      : never
  : never;
type Body<O> = O extends { requestBody: { content: { "application/json": infer B } } } ? B : never;

type Values = Record<string, string | number | undefined>;

/** `/api/gardens/{garden}/field` with its words put in. */
export function address(path: string, params: { path?: unknown; query?: unknown } = {}): string {
  const words = (params.path ?? {}) as Values;
  const filled = path.replace(/\{(\w+)\}/g, (_, key: string) => encodeURIComponent(words[key] ?? ""));
  const query = new URLSearchParams();
  for (const [key, value] of Object.entries((params.query ?? {}) as Values))
    if (value !== undefined) query.set(key, String(value));
  const text = query.toString();
  return text === "" ? filled : `${filled}?${text}`;
}

export function link_to<P extends PathsWith<"get">>(path: P, params: Parameters<Asked<P, "get">>): string {
  return address(path, params);
}

async function refused(answer: Response): Promise<Refused> {
  const unknown: Problem = {
    code: "unknown",
    where: "",
    message: "The program answered with something else than was asked.",
    hint: "Load the page again.",
  };
  const told = (await answer.json().catch(() => null)) as Refusal | null;
  return new Refused(answer.status, told?.error ?? unknown, told?.problems ?? []);
}

async function fetched(url: string, init: RequestInit): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(url, init);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new Gone("Nobody answers.");
  }
  if (!answer.ok) throw await refused(answer);
  return answer;
}

/** A body that breaks off is as good as nobody there. */
async function body_of<T>(reading: Promise<T>): Promise<T> {
  try {
    return await reading;
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new Gone("The answer broke off.");
  }
}

export async function ask<P extends PathsWith<"get">>(
  path: P,
  params: Parameters<Asked<P, "get">>,
  signal: AbortSignal | null = null,
): Promise<Answer<Asked<P, "get">>> {
  const answer = await fetched(address(path, params), { signal });
  return body_of(answer.json()) as Promise<Answer<Asked<P, "get">>>;
}

export async function ask_bytes<P extends PathsWith<"get">>(
  path: P,
  params: Parameters<Asked<P, "get">>,
  signal: AbortSignal | null = null,
): Promise<ArrayBuffer> {
  return body_of((await fetched(address(path, params), { signal })).arrayBuffer());
}

export async function ask_text<P extends PathsWith<"get">>(
  path: P,
  params: Parameters<Asked<P, "get">>,
  signal: AbortSignal | null = null,
): Promise<string> {
  return body_of((await fetched(address(path, params), { signal })).text());
}

/** A file goes as it is. */
export async function send_file<P extends PathsWith<"post">>(
  path: P,
  params: Parameters<Asked<P, "post">>,
  file: Blob,
): Promise<Answer<Asked<P, "post">>> {
  const headers = { "Content-Type": "application/octet-stream", "X-Spadework": "1" };
  const answer = await fetched(address(path, params), { method: "POST", headers, body: file });
  return body_of(answer.json()) as Promise<Answer<Asked<P, "post">>>;
}

function posted(body: unknown, signal: AbortSignal | null): RequestInit {
  return {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-Spadework": "1" },
    body: JSON.stringify(body),
    signal,
  };
}

export async function send<P extends PathsWith<"post">>(
  path: P,
  params: Parameters<Asked<P, "post">>,
  body: Body<Asked<P, "post">>,
  signal: AbortSignal | null = null,
): Promise<Answer<Asked<P, "post">>> {
  const answer = await fetched(address(path, params), posted(body, signal));
  return body_of(answer.json()) as Promise<Answer<Asked<P, "post">>>;
}

export async function send_for_bytes<P extends PathsWith<"post">>(
  path: P,
  params: Parameters<Asked<P, "post">>,
  body: Body<Asked<P, "post">>,
  signal: AbortSignal | null = null,
): Promise<ArrayBuffer> {
  return body_of((await fetched(address(path, params), posted(body, signal))).arrayBuffer());
}
