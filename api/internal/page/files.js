// Files for the maker: saved from what the page has, or fetched with the token.
import { h } from "./dom.js";
import { send } from "./send.js";

/** save hands a blob to the browser as a file. */
export function save(blob, name) {
  const a = h("a", { href: URL.createObjectURL(blob), download: name });
  document.body.append(a);
  a.click();
  a.remove();
}

/** fetchFile saves what the service gives under an address; request is as for send. */
export async function fetchFile(path, name, request) {
  const reply = await send(path, request);
  if (reply.ok) save(await reply.blob(), name);
  return reply.ok;
}
