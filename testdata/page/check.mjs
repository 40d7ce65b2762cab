// Walks the front page as a maker would: four questions by the mouse, one by the
// keyboard alone, on a telephone, in inches, with a mistake; and at a service that
// asks for a token. .ci/page runs it:
//
//   CLOSED=SERVICE THAT ASKS FOR A TOKEN TOKEN=ITS TOKEN \
//   node check.mjs SERVICE BROWSER DEMO [FOLDER FOR SCREENSHOTS]
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { chromium } from "playwright-core";

const [service, executablePath, demo, shots] = process.argv.slice(2);
const { CLOSED: closed, TOKEN: token } = process.env;
const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });

// open gives a new page that notes every complaint and every request elsewhere.
async function open(viewport, more = {}, at = service) {
  const context = await browser.newContext({ viewport, ...more });
  const page = await context.newPage();
  const faults = [];
  page.on("console", (m) => { if (m.type() === "error" || m.type() === "warning") faults.push(`console: ${m.text()}`); });
  page.on("pageerror", (e) => faults.push(`script: ${e.message}`));
  page.on("request", (r) => { const u = new URL(r.url()); if (u.protocol.startsWith("http") && u.hostname !== "127.0.0.1") faults.push(`asked elsewhere: ${r.url()}`); });
  page.on("response", (r) => { if (r.status() >= 400 && r.status() !== 422 && r.status() !== 401) faults.push(`${r.status()} ${r.url()}`); });
  page.on("requestfailed", (r) => faults.push(`failed: ${r.url()}`));
  await page.goto(at + "/");
  return { page, faults, close: () => context.close() };
}

let number = 0;
async function shot(page, name) {
  number++;
  if (shots) await page.screenshot({ path: join(shots, `${number}-${name}.png`), fullPage: true });
}

async function step(words, work) {
  const start = Date.now();
  await work();
  console.log(`ok  ${words} (${((Date.now() - start) / 1000).toFixed(1)} s)`);
}

const formOf = (page, route) => page.locator(`form[data-route="${route}"]`);

// ask presses the button of a form and waits for its new answer.
async function ask(page, route) {
  const form = formOf(page, route);
  await form.locator(".answer").evaluateAll((all) => all.forEach((e) => e.remove()));
  await form.getByRole("button").click();
  await form.locator(".answer").waitFor({ timeout: 20_000 });
  return form;
}

// direct asks the service itself, past the page.
async function direct(route, file) {
  const reply = await fetch(service + route, { method: "POST", headers: { "Content-Type": "application/json" }, body: readFileSync(join(demo, file)) });
  assert.equal(reply.status, 200);
  return (await reply.json()).result;
}

// noneBroken holds a page against the rules of accessibility.
async function noneBroken(page, where) {
  await page.evaluate(axeSource);
  const { violations, passes } = await page.evaluate(() => globalThis.axe.run(document));
  const told = violations.map((v) => `${v.impact}: ${v.id}: ${v.help} (${v.nodes.map((n) => n.target.join(" ")).join(", ")})`);
  assert.ok(passes.length > 10, "the rules were tried");
  assert.deepEqual(told, [], where);
}

const narrow = async (page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

try {
  const desk = await open({ width: 1200, height: 900 });
  const { page } = desk;

  await step("the page before any question breaks no rule of accessibility", () => noneBroken(page, "before"));

  await step("fields of a row stand level, and no choice is cut", async () => {
    const faults = await page.evaluate(() => {
      const found = [];
      const pen = document.createElement("canvas").getContext("2d");
      for (const fields of document.querySelectorAll("form[data-route] .fields")) {
        const all = [...fields.querySelectorAll("input, select")].map((e) => ({ name: e.dataset.to, row: Math.round(e.parentElement.getBoundingClientRect().bottom), box: e.getBoundingClientRect() }));
        for (const a of all) for (const b of all) {
          if (a.row === b.row && (Math.abs(a.box.top - b.box.top) > 0.5 || Math.abs(a.box.height - b.box.height) > 0.5)) found.push(`${a.name} and ${b.name}`);
        }
        for (const choice of fields.querySelectorAll("select")) {
          const style = getComputedStyle(choice);
          pen.font = style.font;
          const arrow = 20; // px, what the browser draws at the right
          for (const o of choice.options) if (pen.measureText(o.text).width > choice.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - arrow) found.push(o.text);
        }
      }
      return found;
    });
    assert.deepEqual(faults, []);
  });

  await step("readiness: answer, drawing, the wrong weighing left out, as the demo has it", async () => {
    const form = await ask(page, "/v1/readiness");
    const expected = await direct("/v1/readiness", "rack/b-black-walnut.json");
    const text = await form.locator(".answer").innerText();
    for (const s of expected.verdicts) assert.ok(text.includes(s.verdict.replaceAll("_", " ")), `${s.step}: ${s.verdict} in\n${text}`);
    assert.match(text, /left out\s+2026-01-04/);
    const drawing = form.locator(".answer img");
    await drawing.waitFor();
    await drawing.evaluate((i) => i.decode());
    assert.ok(await drawing.evaluate((i) => i.naturalWidth > 300 && i.naturalHeight > 100), "the drawing has a size");
    await shot(page, "readiness");
  });

  await step("seasoning: answer and drawing", async () => {
    const form = await ask(page, "/v1/seasoning");
    const text = await form.locator(".answer").innerText();
    assert.match(text, /mean dry\s+\d{4}-\d\d-\d\d/);
    await form.locator(".answer img").evaluate((i) => i.decode());
  });

  await step("yield: the number of leaves that the demo has without its spoiled one", async () => {
    const form = await ask(page, "/v1/leaf-yield");
    assert.equal(await form.locator(".found").innerText(), "40 leaves, 20 sets");
    const expected = await direct("/v1/leaf-yield", "set-of-leaves.json");
    assert.equal(expected.leaves, 40);
  });

  await step("movement: the change that the demo has", async () => {
    const form = await ask(page, "/v1/movement");
    const expected = await direct("/v1/movement", "drop-top.json");
    const shown = await form.locator(".found").innerText();
    assert.ok(shown.startsWith(`${Number(expected.change.value.toFixed(2))} mm (`), shown);
    await shot(page, "all-four");
  });

  await step("the page with its answers breaks no rule of accessibility", async () => {
    for (const summary of await page.locator(".answer summary").all()) await summary.click();
    await noneBroken(page, "with answers");
  });

  await step("the line for programs, pasted into a shell's curl, is what was asked", async () => {
    const line = await formOf(page, "/v1/movement").locator("pre").last().innerText();
    const body = line.match(/-d '(.*)'$/s)[1].replaceAll("'\\''", "'");
    const reply = await fetch(service + "/v1/movement", { method: "POST", headers: { "Content-Type": "application/json" }, body });
    assert.equal(reply.status, 200);
  });

  await step("inches: every question that was answered is asked again, and answered in inches", async () => {
    const asked = [];
    page.on("request", (r) => { if (r.method() === "POST") asked.push(r.postDataJSON().report_in); });
    await page.getByRole("radio", { name: /inches/ }).check();
    await page.waitForFunction(() => [...document.querySelectorAll('form[data-route="/v1/movement"] .found')].some((e) => / in \(/.test(e.textContent)));
    await page.waitForFunction(() => ![...document.querySelectorAll("button")].some((b) => b.disabled), undefined, { timeout: 20_000 });
    assert.ok(asked.length >= 4 && asked.every((a) => a === "inch"), String(asked));
    for (const route of ["/v1/readiness", "/v1/seasoning", "/v1/leaf-yield", "/v1/movement"]) assert.equal(await formOf(page, route).locator(".wrong").count(), 0, route);
    await shot(page, "inches");
    await page.getByRole("radio", { name: /millimetres/ }).check();
    await page.waitForFunction(() => / mm \(/.test(document.querySelector('form[data-route="/v1/movement"] .found').textContent));
    await page.waitForFunction(() => ![...document.querySelectorAll("button")].some((b) => b.disabled), undefined, { timeout: 20_000 });
  });
  assert.deepEqual(desk.faults, []);

  await step("two mistakes are both told, in words, and both fields are marked; mended, they are not", async () => {
    const form = formOf(page, "/v1/leaf-yield");
    const kerf = form.getByLabel("Kerf"), length = form.getByLabel("Billet length");
    await kerf.fill("1.5");
    await length.fill("-3 m");
    await ask(page, "/v1/leaf-yield");
    const text = await form.locator(".answer").innerText();
    assert.match(text, /not a length/);
    assert.equal(await kerf.getAttribute("aria-invalid"), "true");
    assert.equal(await length.getAttribute("aria-invalid"), "true");
    assert.equal(await form.locator("[aria-invalid]").count(), 2);
    await shot(page, "mistakes");
    await noneBroken(page, "with mistakes");
    await kerf.fill("1.5 mm");
    await length.fill("1250 mm");
    await ask(page, "/v1/leaf-yield");
    assert.equal(await form.locator("[aria-invalid]").count(), 0);
    // A refused request is noted by the browser itself; nothing else may be.
    assert.deepEqual(desk.faults.filter((f) => !/status of 422/.test(f)), []);
  });

  await step("names are offered while typing", async () => {
    const wood = formOf(page, "/v1/movement").getByLabel("Wood");
    await wood.fill("");
    await wood.pressSequentially("walnut");
    await page.waitForFunction(() => document.querySelectorAll("#woods option").length > 1);
  });
  await desk.close();

  await step("by the keyboard alone: tab to a field, change it, Enter, read the answer", async () => {
    const { page, faults, close } = await open({ width: 1200, height: 900 });
    const order = [];
    for (let i = 0; i < 80; i++) {
      await page.keyboard.press("Tab");
      const at = await page.evaluate(() => {
        const e = document.activeElement;
        const outline = getComputedStyle(e).outlineStyle;
        return { to: e.dataset.to || e.name || e.textContent.trim(), route: e.form?.dataset.route || "", outline };
      });
      assert.notEqual(at.outline, "none", `one sees where the keyboard is: ${at.to}`);
      order.push(at.to);
      if (at.route === "/v1/movement" && at.to === "size") break;
    }
    assert.equal(order[0], "To the questions", "the first stop leads past the heading");
    assert.equal(order.at(-1), "size");
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("13 in");
    await page.keyboard.press("Enter");
    const answer = formOf(page, "/v1/movement").locator(".answer");
    await answer.waitFor();
    assert.match(await answer.locator(".found").innerText(), /mm \(/);
    assert.equal(await page.evaluate(() => document.activeElement.dataset.to), "size", "the keyboard stays where it was");
    assert.equal(await page.locator("output[aria-live]").count(), 4, "answers are read out");
    assert.deepEqual(faults, []);
    await close();
  });

  for (const width of [360, 320]) {
    await step(`a telephone of ${width} points: nothing runs out at the side, before and after`, async () => {
      const { page, faults, close } = await open({ width, height: 740 }, { isMobile: true, hasTouch: true, deviceScaleFactor: 2 });
      assert.ok((await narrow(page)) <= 0, "before");
      for (const route of ["/v1/readiness", "/v1/seasoning", "/v1/leaf-yield", "/v1/movement"]) await ask(page, route);
      await formOf(page, "/v1/readiness").locator(".answer img").evaluate((i) => i.decode());
      for (const summary of await page.locator(".answer summary").all()) await summary.click();
      assert.ok((await narrow(page)) <= 0, `with answers, by ${await narrow(page)} px`);
      await noneBroken(page, "telephone");
      for (const summary of await page.locator(".answer summary").all()) await summary.click();
      await shot(page, `telephone-${width}`);
      assert.deepEqual(faults, []);
      await close();
    });
  }

  await step("a service that asks for a token: the page opens, asks for it, is mistaken once, and answers", async () => {
    assert.ok(closed && token, "there is such a service");
    const { page, faults, close } = await open({ width: 1200, height: 900 }, {}, closed);
    const asked = [];
    page.on("request", (r) => asked.push(r));
    const field = page.getByLabel("Token you were given"), use = page.getByRole("button", { name: "Use it" });
    assert.equal(await field.isVisible(), false, "not before it is needed");
    await formOf(page, "/v1/movement").getByLabel("Size", { exact: true }).focus();
    await page.keyboard.press("Enter");
    await field.waitFor();
    await page.waitForFunction(() => document.activeElement.id === "token");
    assert.match(await page.locator("#access-why").innerText(), /Put it in/);
    assert.match(await formOf(page, "/v1/movement").locator(".answer").innerText(), /A token is needed\s+It goes into the field at the top/);
    await noneBroken(page, "asks for a token");
    await shot(page, "token-wanted");

    await page.keyboard.type("two words");
    await page.keyboard.press("Enter");
    assert.match(await page.locator("#access-why").innerText(), /one word/);
    await field.fill("wrong");
    await use.click();
    await page.locator("#access-why", { hasText: "not one this service knows" }).waitFor();
    assert.equal(await field.getAttribute("aria-invalid"), "true");
    await noneBroken(page, "a wrong token");

    await field.fill(`  ${token} `); // as it comes from a clipboard
    await page.keyboard.press("Enter");
    const answer = formOf(page, "/v1/movement").locator(".answer");
    await answer.locator(".found").waitFor();
    assert.equal(await field.isVisible(), false);
    assert.equal(await page.evaluate(() => document.activeElement.tagName), "OUTPUT", "the keyboard is at the answer");
    const readiness = await ask(page, "/v1/readiness");
    await readiness.locator(".answer img").evaluate((i) => i.decode());

    await answer.locator("summary").last().click();
    const line = await answer.locator("pre").last().innerText();
    assert.ok(line.includes(`-H "Authorization: Bearer $TOKEN"`), line);
    const body = line.match(/-d '(.*)'$/s)[1].replaceAll("'\\''", "'");
    const reply = await fetch(closed + "/v1/movement", { method: "POST", headers: { "Content-Type": "application/json", Authorization: `Bearer ${token}` }, body });
    assert.equal(reply.status, 200);

    const wood = formOf(page, "/v1/movement").getByLabel("Wood");
    await wood.fill("");
    await wood.pressSequentially("walnut");
    await page.waitForFunction(() => document.querySelectorAll("#woods option").length > 1);

    // It is nowhere but in the header of requests to this service.
    assert.ok(asked.some((r) => r.headers().authorization === `Bearer ${token}`), "the header is seen here");
    for (const r of asked) assert.ok(!r.url().includes(token) && !(r.postData() || "").includes(token), r.url());
    assert.equal(page.url(), closed + "/");
    assert.ok(!(await page.content()).includes(token), "not in the page");
    assert.deepEqual(await page.locator("input, textarea").evaluateAll((all, t) => all.filter((e) => e.value.includes(t)).map((e) => e.id), token), []);
    const kept = await page.context().storageState({ indexedDB: true });
    assert.deepEqual(kept, { cookies: [], origins: [] }, "nothing is stored");
    assert.equal(await page.evaluate(() => sessionStorage.length), 0);
    await page.reload();
    await ask(page, "/v1/movement");
    await field.waitFor();
    assert.deepEqual(faults.filter((f) => !/status of 401/.test(f)), []);
    assert.ok(faults.length > 0, "the browser itself notes what was refused");
    await close();
  });

  await step("the documents take the token, ask with it and forget it", async () => {
    const { page, faults, close } = await open({ width: 1200, height: 900 }, {}, closed);
    await page.goto(`${closed}/docs/#/service/getLimits`);
    await page.getByRole("button", { name: "Authorize" }).first().click();
    await page.locator(".auth-container input").fill(token);
    await page.locator(".auth-container").getByRole("button", { name: /Apply credentials|Authorize/ }).click();
    await page.getByRole("button", { name: "Close" }).last().click();
    await page.getByRole("button", { name: "Try it out" }).click();
    const [reply] = await Promise.all([page.waitForResponse((r) => r.url() === `${closed}/v1/limits`), page.getByRole("button", { name: "Execute" }).click()]);
    assert.equal(reply.status(), 200);
    assert.equal(reply.request().headers().authorization, `Bearer ${token}`);
    assert.deepEqual(await page.context().storageState({ indexedDB: true }), { cookies: [], origins: [] });
    assert.deepEqual(faults, []);
    await close();
  });

  await step("without scripts the page says where to go", async () => {
    const { page, close } = await open({ width: 800, height: 600 }, { javaScriptEnabled: false });
    assert.match(await page.locator("noscript").innerText(), /script/);
    await close();
  });
} finally {
  await browser.close();
}
