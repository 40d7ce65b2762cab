// How the service is asked. A token is kept in this file and nowhere else: not stored, not in
// an address, not in the page once it was taken.
let token = "";
let wanted = false;

export const setToken = (given) => {
  token = given;
};
export const tokenWanted = () => wanted;

/** send asks the service; without the right token it tells whoever listens and returns the reply. */
export async function send(path, request = {}, tell = true) {
  const headers = { ...request.headers };
  const sent = token;
  if (sent !== "") headers.Authorization = "Bearer " + sent;
  const reply = await fetch(path, { ...request, headers });
  if (reply.status !== 401) return reply;
  if (token !== sent && token !== "") return send(path, request, tell); // another was given meanwhile
  token = "";
  wanted = true;
  if (tell)
    document.dispatchEvent(
      new CustomEvent("token-wanted", { detail: { wrong: sent !== "", why: (await reply.clone().json()).detail } }),
    );
  return reply;
}

/** post asks one question; accept is what the answer shall be. */
export const post = (route, body, accept, signal) =>
  send(route, {
    method: "POST",
    headers: { "Content-Type": "application/json", Accept: accept },
    body: JSON.stringify(body),
    signal,
  });

/** programLine is the same question for a shell. */
export function programLine(route, body) {
  const bearer = wanted ? ` -H "Authorization: Bearer $TOKEN"` : "";
  return `curl -s ${location.origin}${route}${bearer} -H 'Content-Type: application/json' -d '${JSON.stringify(body).replaceAll("'", "'\\''")}'`;
}
