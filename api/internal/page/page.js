// The front page: each form becomes one request, and its answer is shown in
// words, as a drawing where there is one, whole, and as a curl line.
"use strict";

const units = () => document.querySelector('input[name="units"]:checked').value;

// put sets a value deep in an object by a path such as "stays.0.station".
function put(target, path, value) {
  const steps = path.split(".");
  let at = target;
  steps.forEach((step, i) => {
    if (i === steps.length - 1) { at[step] = value; return; }
    if (at[step] === undefined) at[step] = /^\d+$/.test(steps[i + 1]) ? [] : {};
    at = at[step];
  });
}

function valueOf(field) {
  const text = field.value.trim();
  if (text === "") return undefined;
  if (field.dataset.as === "number") return text !== "" && isFinite(text) ? Number(text) : text;
  if (field.dataset.as === "weights") {
    return text.split("\n").filter((line) => line.trim() !== "").map((line) => {
      const cut = line.indexOf(",");
      const [date, mass] = cut < 0 ? [line.trim(), ""] : [line.slice(0, cut).trim(), line.slice(cut + 1).trim()];
      return { kind: "weight", date, mass };
    });
  }
  return text;
}

function requestOf(form) {
  const request = {};
  let weights = [];
  for (const field of form.querySelectorAll("[data-to]")) {
    const value = valueOf(field);
    if (value === undefined) continue;
    if (field.dataset.as === "weights") { weights = value; continue; }
    put(request, field.dataset.to, value);
    if (field.dataset.also) put(request, field.dataset.also, value);
  }
  // Without a reading of the meter, where and how it was taken says nothing.
  if (request.readings || weights.length > 0) {
    const pins = (request.readings || []).filter((r) => r.reading_mc_pct !== undefined).map((r) => ({ kind: "pin_meter", ...r }));
    request.readings = [...pins, ...weights];
  }
  request.report_in = units();
  return request;
}

const element = (name, text, attributes) => {
  const e = document.createElement(name);
  if (text !== undefined) e.textContent = text;
  Object.assign(e, attributes || {});
  return e;
};

const round = (v, digits) => String(Number(Number(v).toFixed(digits)));
const band = (q) => {
  const digits = q.unit === "in" ? 3 : 2; // a hundredth of a millimetre is less than a thousandth of an inch
  return `${round(q.value, digits)} ${q.unit} (${round(q.low, digits)} to ${round(q.high, digits)})`;
};
const percent = (p) => `${round(p.value, 1)} % (${round(p.low, 1)} to ${round(p.high, 1)})`;

function table(rows) {
  const t = element("table");
  for (const [head, ...cells] of rows) {
    const row = t.insertRow();
    const th = element("th", head);
    th.scope = "row";
    const cell = element("td");
    if (cells.length === 1) {
      cell.textContent = cells[0];
    } else { // side by side where there is room, below each other where not
      const parts = element("div", undefined, { className: "parts" });
      for (const c of cells) parts.append(element("span", c), " ");
      cell.append(parts);
    }
    row.append(th, cell);
  }
  return t;
}

const words = { ready: "ready", not_ready: "not ready", cannot_say: "cannot say" };

// What each answer says in words: one sentence and a small table.
const told = {
  "/v1/readiness": (r) => [r.summary, [
    ["moisture content now", percent(r.moisture.mc)],
    ["target in the build room", percent(r.target.mc)],
    ...r.verdicts.map((s) => [s.step, words[s.verdict], s.ready_on && s.ready_on.value ? `about ${s.ready_on.value}` : "", s.detail]),
    ...(r.rejected_readings || []).map((s) => ["left out", `${s.date}: ${s.detail}`]),
    ...(r.next_reading ? [["next", `${r.next_reading.date}: ${r.next_reading.detail}`]] : []),
    ...r.advice.map((n) => ["next", n]),
  ]],
  "/v1/seasoning": (r) => [r.summary, [
    ["mean dry", r.mean_dry.value || "not within the forecast", `90 %: ${r.mean_dry.low || "-"} to ${r.mean_dry.high || "-"}`],
    ["core dry", r.core_dry.value || "not within the forecast", `90 %: ${r.core_dry.low || "-"} to ${r.core_dry.high || "-"}`],
    ...r.advice.map((a) => ["note", a]),
  ]],
  "/v1/leaf-yield": (r) => [`${r.leaves} leaves, ${r.sets} sets`, [
    ["stacks", `${r.rows} lengths by ${r.columns} widths`],
    ["unpaired leaves", String(r.unpaired_leaves)],
    ...(r.one_more_leaf ? [["one more leaf", `needs ${round(r.one_more_leaf.short_by.value, 3)} ${r.one_more_leaf.short_by.unit} more thickness` +
      (r.one_more_leaf.max_kerf ? `, or a kerf of at most ${round(r.one_more_leaf.max_kerf.value, 3)} ${r.one_more_leaf.max_kerf.unit}` : "")]] : []),
    ...(r.shares ? [["becomes", `leaves ${round(r.shares.leaf_share_pct, 0)} %, dust ${round(r.shares.kerf_share_pct, 0)} %, shavings ${round(r.shares.shavings_share_pct, 0)} %, trim ${round(r.shares.trim_share_pct, 0)} %, strips ${round(r.shares.offcut_share_pct, 0)} %`]] : []),
  ]],
  "/v1/movement": (r) => [`${band(r.change)}`, [
    ["from", percent(r.from_mc)], ["to", percent(r.to_mc)], ["size at the end", band(r.to_size)],
  ]],
};

// A service that others can reach may ask for a token. It is kept here and nowhere
// else: not stored, not in an address, not in the page once it was taken.
let token = "";
let tokenWanted = false;
const waiting = new Set(); // the forms that were refused for want of it
const access = document.getElementById("access");
const tokenField = document.getElementById("token");

// send asks the service, with the token if there is one, and shows the field for
// it when it is refused for want of one.
async function send(path, request) {
  const headers = { ...(request || {}).headers };
  const sent = token;
  if (sent !== "") headers.Authorization = "Bearer " + sent;
  const reply = await fetch(path, { ...request, headers });
  if (reply.status !== 401) return reply;
  const problem = await reply.clone().json();
  if (token !== sent && token !== "") return send(path, request); // another was given meanwhile
  token = "";
  wantToken(sent === "" ? "Put it in, and what you asked is asked again" : "That was not right: " + problem.detail, sent !== "");
  return reply;
}

function wantToken(why, wrong) {
  tokenWanted = true;
  access.hidden = false;
  document.getElementById("access-why").textContent = why + ".";
  if (wrong) tokenField.setAttribute("aria-invalid", "true"); else tokenField.removeAttribute("aria-invalid");
  document.getElementById("methods").href = "/docs/#/tables/listMethods"; // a link can carry no token; the documents can
}

access.querySelector("form").addEventListener("submit", (event) => {
  event.preventDefault();
  const given = tokenField.value.trim();
  if (!/^[!-~]+$/.test(given)) {
    wantToken("A token is one word of letters, digits, dashes and underscores", true);
    tokenField.focus();
    return;
  }
  token = given;
  tokenField.value = "";
  access.hidden = true;
  const [first] = waiting;
  for (const form of waiting) form.requestSubmit();
  waiting.clear();
  if (first) first.querySelector("output").focus(); else document.querySelector("form[data-route] input").focus();
});

function curlOf(route, body) {
  const bearer = tokenWanted ? ` -H "Authorization: Bearer $TOKEN"` : "";
  return `curl -s ${location.origin}${route}${bearer} -H 'Content-Type: application/json' -d '${JSON.stringify(body).replaceAll("'", "'\\''")}'`;
}

function markWrong(form, errors, request) {
  const ofWeights = (pointer) => {
    const reading = /^\/readings\/(\d+)/.exec(pointer);
    return reading !== null && request.readings[reading[1]].kind === "weight";
  };
  for (const field of form.querySelectorAll("[data-to]")) {
    const mine = [field.dataset.to, field.dataset.also].filter(Boolean).map((p) => "/" + p.replaceAll(".", "/"));
    const wrong = errors.some(({ pointer = "" }) => field.dataset.as === "weights" ? ofWeights(pointer)
      : !ofWeights(pointer) && mine.some((p) => pointer === p || pointer.startsWith(p + "/")));
    if (wrong) field.setAttribute("aria-invalid", "true"); else field.removeAttribute("aria-invalid");
  }
}

async function ask(form) {
  const route = form.dataset.route;
  const body = requestOf(form);
  const answerAs = (accept) => send(route, { method: "POST", headers: { "Content-Type": "application/json", Accept: accept }, body: JSON.stringify(body) });
  const box = element("div", undefined, { className: "answer" });
  const reply = await answerAs("application/json");
  const answer = await reply.json();
  markWrong(form, answer.errors || [], body);
  if (!reply.ok) {
    box.append(element("p", answer.title, { className: "wrong" }));
    const list = element("ul");
    const why = reply.status === 401 ? "It goes into the field at the top of this page." : answer.detail || "";
    for (const e of answer.errors && answer.errors.length ? answer.errors : [{ detail: why }]) list.append(element("li", e.detail));
    box.append(list);
  } else {
    const [sentence, rows] = told[route](answer.result);
    box.append(element("p", sentence, { className: "found" }), table(rows));
    if (form.dataset.drawing) {
      const drawing = await answerAs("image/svg+xml");
      if (drawing.ok) box.append(element("img", undefined, { src: URL.createObjectURL(await drawing.blob()), alt: "Drawing: " + sentence }));
    }
    const warnings = element("details");
    warnings.append(element("summary", `What to know first (${answer.warnings.length})`));
    const list = element("ul");
    for (const w of answer.warnings) list.append(element("li", w.detail));
    warnings.append(list);
    if (answer.warnings.length > 0) box.append(warnings);
  }
  for (const [name, text] of [["The whole answer", JSON.stringify(answer, null, 2)], ["The request for a program", curlOf(route, body)]]) {
    const d = element("details");
    d.append(element("summary", name), element("pre", text, { tabIndex: 0 })); // it scrolls, so the keyboard must reach it
    box.append(d);
  }
  form.querySelector("output").replaceChildren(box);
  if (reply.status === 401) {
    waiting.add(form);
    tokenField.focus();
  }
}

for (const form of document.querySelectorAll("form[data-route]")) {
  form.querySelector("output").tabIndex = -1; // where the keyboard is led once the token is there
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const button = form.querySelector("button");
    button.disabled = true;
    try {
      await ask(form);
    } catch (failure) {
      form.querySelector("output").replaceChildren(element("p", "The service did not answer: " + failure.message, { className: "wrong" }));
    } finally {
      button.disabled = false;
    }
  });
}

for (const radio of document.querySelectorAll('input[name="units"]')) {
  radio.addEventListener("change", () => {
    for (const form of document.querySelectorAll("form[data-route]")) if (form.querySelector(".answer")) form.requestSubmit();
  });
}

// Names to choose from, as the maker types.
async function offer(list, path, query) {
  const reply = await send(`${path}?limit=12&q=${encodeURIComponent(query)}`);
  if (!reply.ok) return;
  const found = await reply.json();
  document.getElementById(list).replaceChildren(...found.items.map((i) => element("option", undefined, { value: i.common_name || i.name })));
}
let typing = 0;
document.addEventListener("input", (event) => {
  const list = event.target.getAttribute && event.target.getAttribute("list");
  if (!list || event.target.value.trim().length < 3) return;
  clearTimeout(typing);
  typing = setTimeout(() => offer(list, list === "woods" ? "/v1/species" : "/v1/stations", event.target.value), 250);
});
