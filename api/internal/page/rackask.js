// How the rack is asked, and what of it is kept in this browser for when there is no signal.
import { weightsOf } from "./rackread.js";
import { Queue } from "./queue.js";
import { send } from "./send.js";

/** Refused is what the service says no to. */
export class Refused extends Error {
  constructor(status, problem) {
    super(problem?.errors?.[0]?.detail || problem?.detail || problem?.title || String(status));
    Object.assign(this, { status, problem });
  }
}

/** ask asks the service for JSON: {method, body, etag, key}. It throws Refused, or what fetch throws. */
export async function ask(path, { method, body, etag, key, accept = "application/json" } = {}) {
  const headers = { Accept: accept };
  if (body !== undefined) headers["Content-Type"] = "application/json";
  if (etag) headers["If-Match"] = etag;
  if (key) headers["Idempotency-Key"] = key;
  const reply = await send(path, {
    method: method || (body === undefined ? "GET" : "POST"),
    headers,
    body: body === undefined ? undefined : JSON.stringify(body),
  });
  const text = await reply.text();
  if (!reply.ok) {
    let problem;
    try {
      problem = JSON.parse(text);
    } catch {
      /* not from the service itself */
    }
    throw new Refused(reply.status, problem);
  }
  return accept === "application/json" ? (text === "" ? undefined : JSON.parse(text)) : text;
}

const place = "latewood-rack";

/** seen is the rack as it was last seen here, with the time; undefined when never. */
export function seen() {
  try {
    return JSON.parse(localStorage.getItem(place)) || undefined;
  } catch {
    return undefined;
  }
}

// All entries of a list, page by page.
async function everyOf(path) {
  const all = [],
    most = 500;
  for (;;) {
    const { items, total } = await ask(`${path}${path.includes("?") ? "&" : "?"}limit=${most}&offset=${all.length}`);
    all.push(...items);
    if (all.length >= total || items.length === 0) return all;
  }
}

// The overview, page by page where it comes in pages: then its totals tell how long the lists are.
async function wholeOverview(wait) {
  const all = await ask(`/v1/rack/overview?wait_seconds=${wait}`);
  const lists = Object.keys(all.totals || {});
  const most = 500;
  for (let at = most; lists.some((name) => all[name].length < all.totals[name]); at += most) {
    const more = await ask(`/v1/rack/overview?wait_seconds=0&limit=${most}&offset=${at}`);
    if (lists.every((name) => more[name].length === 0)) break;
    for (const name of lists) all[name].push(...more[name]);
  }
  return all;
}

/**
 * load reads the rack: {at, overview, wood, places, targets}. Each of wood stands as in the
 * overview, with its sizes, its last weight and what is expected now.
 */
export async function load(wait = 0) {
  const [overview, billets, pieces, places, targets] = await Promise.all([
    wholeOverview(wait),
    everyOf("/v1/rack/billets"),
    everyOf("/v1/rack/pieces"),
    everyOf("/v1/rack/places"),
    everyOf("/v1/rack/targets"),
  ]);
  const entries = new Map([...billets.map((b) => [`billets/${b.id}`, b]), ...pieces.map((p) => [`pieces/${p.id}`, p])]);
  const wood = overview.wood.map((w) => {
    const key = `${w.kind}s/${w.id}`,
      entry = entries.get(key);
    return {
      ...w,
      sizes: ["length", "width", "thickness"].map((n) => entry?.billet[n]),
      ...weightsOf(overview, w),
    };
  });
  const { wood: _, ...lists } = overview;
  const name = ({ id, name }) => ({ id, name });
  const all = { at: Date.now(), overview: lists, wood, places: places.map(name), targets: targets.map(name) };
  try {
    localStorage.setItem(place, JSON.stringify(all));
  } catch {
    /* full, or not allowed: it works without, as long as there is a signal */
  }
  return all;
}

let line;

/** queue is the one line of weights of this page. */
export function queue() {
  line ??= new Queue(localStorage, ask);
  return line;
}
