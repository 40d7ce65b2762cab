// A form as an address: #/question?u=inch&billet.wood=walnut. What says nothing is left out.
// Links that were made earlier are brought up to date by the moves below.

/** version of the names in links; it grows when a move is added. */
export const version = 1;

// For each version the paths that were renamed after it: [from, to].
const moves = [];

/** linkOf writes a question, its units and its draft as a fragment. */
export function linkOf(question, system, draft) {
  const query = new URLSearchParams();
  if (system === "inch") query.set("u", "inch");
  for (const key of Object.keys(draft).sort()) query.set(key, draft[key]);
  if ([...query].length > 0) query.set("v", String(version));
  const text = query.toString();
  return `#/${question}${text === "" ? "" : "?" + text}`;
}

/** readLink returns {place, system, draft} of a fragment. */
export function readLink(fragment) {
  const [place, text = ""] = fragment.replace(/^#?\/?/, "").split(/\?(.*)/s);
  const query = new URLSearchParams(text);
  const system = query.get("u") === "inch" ? "inch" : query.has("v") ? "metric" : undefined;
  const made = Number(query.get("v") || version);
  const draft = {};
  for (const [key, value] of query) {
    if (key === "u" || key === "v") continue;
    draft[moved(key, made)] = value;
  }
  return { place: decodeURIComponent(place), system, draft };
}

function moved(key, made) {
  let path = key;
  for (let at = made; at < version; at++) {
    for (const [from, to] of moves[at] || [])
      if (path === from || path.startsWith(from + ".")) path = to + path.slice(from.length);
  }
  return path;
}
