// Asks the service. The types in schema.d.ts are generated from the contract; this file
// holds what a generator says clumsily. It needs nothing but fetch.
import type { components, paths } from "./schema.js";

export type Schemas = components["schemas"];
export type Problem = Schemas["Problem"];
export type FieldError = Schemas["FieldError"];

type Json<T> = T extends { content: { "application/json": infer Body } } ? Body : never;
type Post<P extends keyof paths> = NonNullable<paths[P]["post"]>;
type Get<P extends keyof paths> = NonNullable<paths[P]["get"]>;
type Reply<Operation> = Operation extends { responses: { 200: infer Ok } } ? Json<Ok> : never;
type Parameters<Operation> = Operation extends { parameters: { query?: infer Query } } ? NonNullable<Query> : never;

/** The paths of calculations, and of look-ups. */
export type Calculation = { [P in keyof paths]: Json<NonNullable<paths[P]["post"]> extends { requestBody: infer Body } ? Body : never> extends never ? never : P }[keyof paths];
export type LookUp = { [P in keyof paths]: Reply<Get<P>> extends never ? never : P }[keyof paths];

/** What a calculation is asked with, and what it answers. */
export type Request<P extends Calculation> = Post<P> extends { requestBody: infer Body } ? Json<Body> : never;
export type Answer<P extends Calculation> = Reply<Post<P>> & { tag?: string };

/** The forms that the answer of a calculation has beside JSON. */
export type Form<P extends Calculation> = Parameters<Post<P>> extends { as?: infer As } ? unknown extends As ? never : Exclude<As, undefined | "json"> : never;

/** Options of a client, or of one call. */
export interface Options {
  token?: string;
  headers?: Record<string, string>; // such as X-Request-Id or traceparent
  retries?: number; // usually 2
  /** How calculations and streams of them are asked. QUERY is known to be safe to repeat. */
  method?: "POST" | "QUERY";
  signal?: AbortSignal;
  fetch?: typeof fetch;
}

export interface Asking<P extends Calculation> extends Options {
  query?: Omit<Parameters<Post<P>>, "as">; // rendered() asks for other forms
  /** Asks with QUERY, so that the answer has a tag; with the tag of an answer that you hold
   *  the result is undefined while it is still right. "" where you hold none. */
  tag?: string;
}
type Untagged<P extends Calculation> = Asking<P> & { tag?: never };

/** A problem of the service, as an error. */
export class ProblemError extends Error {
  constructor(readonly problem: Problem) {
    super(problem.detail === undefined ? problem.title : `${problem.title}: ${problem.detail}`);
    this.name = "ProblemError";
  }
  get status(): number { return this.problem.status; }
  /** What is wrong with the member that an RFC 6901 pointer leads to. */
  at(pointer: string): FieldError | undefined { return this.problem.errors?.find((e) => e.pointer === pointer); }
}

/** The names and positions that a pointer leads through. */
export const members = (pointer: string): string[] =>
  pointer === "" ? [] : pointer.slice(1).split("/").map((name) => name.replaceAll("~1", "/").replaceAll("~0", "~"));

/** A quantity: of(330, "mm"). A text such as "2 1/16 in" is one too. */
export const of = <U extends string>(value: number, unit: U): { value: number; unit: U } => ({ value, unit });

/** A question of a batch. */
export type Item = { [P in Exclude<Calculation, "/v1/batch">]: { id?: string; route: P; request: Request<P> } }[Exclude<Calculation, "/v1/batch">];
export type ItemAnswer = Schemas["BatchItemAnswer"];

/** Asks one service. The options hold for each of its calls. */
export class Client {
  private readonly base: string;
  constructor(base: string, private readonly defaults: Options = {}) { this.base = base.replace(/\/+$/, ""); }

  /** Asks a calculation. A problem is thrown as a ProblemError. */
  ask<P extends Calculation>(path: P, request: Request<P>, options?: Untagged<P>): Promise<Answer<P>>;
  ask<P extends Calculation>(path: P, request: Request<P>, options: Asking<P>): Promise<Answer<P> | undefined>;
  async ask<P extends Calculation>(path: P, request: Request<P>, options: Asking<P> = {}): Promise<Answer<P> | undefined> {
    return this.calculate(path, options, options.query, request, (reply) => reply.json());
  }

  /** Asks a calculation for another form of its answer, as bytes with their media type:
   *  await (await client.rendered(...)).text() is a drawing or a table, arrayBuffer() a PDF. */
  rendered<P extends Calculation>(path: P, form: Form<P>, request: Request<P>, options?: Untagged<P>): Promise<Blob & { tag?: string }>;
  rendered<P extends Calculation>(path: P, form: Form<P>, request: Request<P>, options: Asking<P>): Promise<(Blob & { tag?: string }) | undefined>;
  async rendered<P extends Calculation>(path: P, form: Form<P>, request: Request<P>, options: Asking<P> = {}): Promise<(Blob & { tag?: string }) | undefined> {
    return this.calculate(path, options, { ...options.query, as: form }, request, (reply) => reply.blob());
  }

  /** What a calculation answers, with its tag; undefined where it is the one that is held. */
  private calculate<T extends object>(path: string, options: Options & { tag?: string }, query: object | undefined, request: unknown,
    read: (reply: Response) => Promise<T>): Promise<(T & { tag?: string }) | undefined> {
    const headers: Record<string, string> = options.tag ? { "If-None-Match": options.tag } : {};
    return this.send(options.tag === undefined ? this.method(options) : "QUERY", path, options, query, headers, JSON.stringify(request), async (reply) => {
      if (reply.status === 304) return undefined;
      const tag = reply.headers.get("ETag");
      return Object.assign(await read(reply), tag === null ? {} : { tag });
    });
  }

  private method(options: Options): string { return options.method ?? this.defaults.method ?? "POST"; }

  /** Looks something up; parts of the path in braces are filled from fill. */
  async look<P extends LookUp>(path: P, options: Options & { query?: Parameters<Get<P>>; fill?: Record<string, string> } = {}): Promise<Reply<Get<P>>> {
    const target = path.replace(/\{(\w+)\}/g, (_, name: string) => encodeURIComponent(options.fill?.[name] ?? ""));
    return this.send("GET", target, options, options.query, {}, undefined, (reply) => reply.json());
  }

  /** Asks many items, a line each, and yields an answer to each, in their order, as they are
   *  ready. Where a stream breaks off or the service ends it, what was not answered is sent
   *  again; line is the place among all items, from 1. */
  async *stream(items: readonly Item[], options: Options = {}): AsyncGenerator<ItemAnswer, void, undefined> {
    for (let from = 0, tried = 0; from < items.length; tried++) {
      const before = from;
      let failed: unknown = new TypeError("the stream broke off");
      try {
        const body = items.slice(from).map((item) => JSON.stringify(item) + "\n").join("");
        const reply = await this.send(this.method(options), "/v1/batch", { ...options, retries: 0 }, undefined, { "Content-Type": "application/x-ndjson" }, body, async (open) => open);
        for await (const line of lines(reply)) {
          const answer: ItemAnswer = JSON.parse(line);
          if (answer.ended) { failed = answer.problem === undefined ? failed : new ProblemError(answer.problem); break; }
          from++;
          yield { ...answer, line: from };
        }
      } catch (error) {
        if (mostTries(error, 1) === 0) throw error;
        failed = error;
      }
      if (from > before) tried = 0;
      if (from < items.length) {
        if (tried >= mostTries(failed, options.retries ?? this.defaults.retries)) throw failed;
        await pause(waitOf(failed), tried, options.signal);
      }
    }
  }

  private async send<T>(method: string, path: string, options: Options, query: object | undefined, more: Record<string, string>,
    body: string | undefined, read: (reply: Response) => Promise<T>): Promise<T> {
    const all = { ...this.defaults, ...options };
    const headers: Record<string, string> = { ...this.defaults.headers, ...options.headers };
    if (body !== undefined) headers["Content-Type"] = "application/json";
    if (all.token !== undefined) headers["Authorization"] = `Bearer ${all.token}`;
    Object.assign(headers, more);
    const asked = new URLSearchParams(Object.entries(query ?? {}).map(([name, value]) => [name, String(value)])).toString();
    const init: RequestInit = { method, headers };
    if (body !== undefined) init.body = body;
    if (all.signal !== undefined) init.signal = all.signal;
    for (let tried = 0; ; tried++) {
      try {
        const reply = await (all.fetch ?? fetch)(this.base + path + (asked === "" ? "" : "?" + asked), init);
        if (reply.status === 200 || reply.status === 304) return await read(reply);
        throw await problemOf(reply);
      } catch (error) {
        if (tried >= mostTries(error, all.retries) || all.signal?.aborted) throw error;
        await pause(waitOf(error), tried, all.signal);
      }
    }
  }
}

const waits = new WeakMap<object, number>();

async function problemOf(reply: Response): Promise<ProblemError> {
  const text = await reply.text();
  let problem: Problem = { type: "about:blank", title: "no answer of the service", status: reply.status };
  if (reply.headers.get("Content-Type")?.startsWith("application/problem+json")) problem = JSON.parse(text);
  const error = new ProblemError(problem);
  const wait = reply.headers.get("Retry-After");
  if (wait !== null && /^\d+$/.test(wait)) waits.set(error, Number(wait));
  return error;
}

const waitOf = (error: unknown): number | undefined => (typeof error === "object" && error !== null ? waits.get(error) : undefined);

/** How often it may help to ask again. A broken connection is tried for longer, while a
 *  service starts anew. */
function mostTries(error: unknown, retries = 2): number {
  if (!(error instanceof ProblemError)) return error instanceof TypeError ? 3 * retries : 0;
  return error.status === 408 || error.status === 429 || error.status >= 500 ? retries : 0;
}

/** Waits as long as a reply said, or longer each time. */
function pause(seconds: number | undefined, tried: number, signal: AbortSignal | undefined): Promise<void> {
  const wait = seconds === undefined ? 250 * 2 ** Math.min(tried, 5) * (0.5 + Math.random()) : seconds * 1000;
  return new Promise((resolve, reject) => {
    const timer = setTimeout(resolve, wait);
    signal?.addEventListener("abort", () => { clearTimeout(timer); reject(signal.reason); }, { once: true });
  });
}

/** The lines of a reply as they come. */
async function* lines(reply: Response): AsyncGenerator<string, void, undefined> {
  const reader = reply.body?.getReader();
  if (reader === undefined) return;
  const decoder = new TextDecoder();
  let rest = "";
  try {
    for (;;) {
      const { done, value } = await reader.read();
      rest += decoder.decode(value, { stream: !done });
      const whole = rest.split("\n");
      rest = whole.pop() ?? "";
      yield* whole.filter((line) => line !== "");
      if (done) return;
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}
