// A rack on the page, from an empty file to a leaf on the scale: billets from a list, a weighing
// day of ten with one hand and without a signal, what is ready, labels, a plan, leaves.
// check.mjs runs it, with a service that keeps a rack. All of it is invented.
import assert from "node:assert/strict";

const day = (ago) => new Date(Date.now() - ago * 864e5).toISOString().slice(0, 10);
const ids = Array.from({ length: 10 }, (_, i) => `w-${i + 1}`);
const written = (iso) => iso.split("-").reverse().join("."); // 14.03.2026, as a spreadsheet has it
const before = ids.map((_, i) => 4.91 + i * 0.2); // kg, a month ago
const sheet = [
  "id;place;target;billet.wood;billet.length;billet.width;billet.thickness;billet.rings.angle_deg;billet.stacked_on",
  ...ids.map(
    (id, i) =>
      `${id};${i < 6 ? "shed" : "shop"};harp;walnut-black;620 mm;230 mm;${48 + i} mm;70;${i % 2 ? day(700 - i) : written(day(700 - i))}`,
  ),
].join("\n");

const air = { temperature: "20 C", rh_pct: 45 };
const seeds = [
  ["places", { id: "shed", name: "the open shed", stay: { station: "columbus-oh", exposure: "shed" } }],
  ["places", { id: "shop", name: "the workshop", stay: { air, exposure: "closed_room" } }],
  ["targets", { id: "harp", name: "a harp for the parlour", target_condition: { air } }],
];

// The rack as another tool left it: places, and what the harp asks for.
async function post(service, path, body) {
  const reply = await fetch(`${service}/v1/rack/${path}`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
  });
  const answer = await reply.json();
  assert.ok(reply.ok, JSON.stringify(answer));
  return answer;
}
const get = async (service, path) => (await fetch(`${service}/v1/rack/${path}`)).json();

// correct changes today's weight of a billet.
async function correct(service, billet, mass) {
  const { items } = await get(service, `readings?billet=${billet}&from=${day(0)}&limit=100`);
  const { id, reading } = items.find((r) => r.reading.kind === "weight");
  const reply = await fetch(`${service}/v1/rack/readings/${id}`, {
    method: "PATCH",
    headers: { "Content-Type": "application/merge-patch+json", "If-Match": "*" },
    body: JSON.stringify({ reading: { ...reading, mass } }),
  });
  assert.ok(reply.ok, await reply.text());
}

const weightOf = (id, kg, ago) => ({
  id: `${id}-${day(ago)}`,
  billet: id,
  reading: { kind: "weight", date: day(ago), mass: `${kg.toFixed(2)} kg` },
});

// press types a weight on the keys of the page; it returns how often the thumb came down.
async function press(page, typed) {
  for (const key of typed)
    await page.locator(".pad button", { hasText: new RegExp(`^${key === "." ? "\\." : key}$`) }).click();
  return typed.length;
}
const keep = (page) => page.locator("#keep").click();
const shownId = (page) => page.locator(".wcard .id").innerText();
const shownNow = (page) => page.evaluate(() => document.querySelector(".wcard .id")?.textContent); // none when all are weighed
const settled = (page) =>
  page.waitForFunction(() => /All are on the rack/.test(document.querySelector(".state")?.textContent));

export async function rackStory({ service, plain, open, step, shot, noneBroken, tooWide, quiet, phone, desk, ask }) {
  const small = { width: 375, height: 667 };

  await step("without a rack there is no place for it, and /b/ID leads to the page", async () => {
    const { page, faults, close } = await open(desk, {}, plain, "b/w-1");
    assert.deepEqual(await page.locator(".bar a").allInnerTexts(), ["Ask", "Kept"]);
    assert.deepEqual(faults, []);
    await close();
  });

  await step("rack: ten billets from a list; a wrong row is told and the others taken on wish", async () => {
    for (const [path, body] of seeds) await post(service, path, body);
    const { page, faults, close } = await open(small, phone, service, "#/rack");
    assert.deepEqual(await page.locator(".bar a").allInnerTexts(), ["Ask", "Rack", "Weigh", "Kept"]);
    await page.getByText("Nothing is on the rack yet").waitFor();
    await page.getByRole("link", { name: "Add from a list" }).click();
    await page.locator("#sheet-save").click();
    await page.getByText("Choose a file, or paste a list.").waitFor();
    await noneBroken(page, "add from a list");
    const wrong = sheet.replace("w-3;shed;harp;walnut-black;620 mm", "w-3;shed;harp;walnut-black;620 kg");
    await page.locator("#sheet").fill(wrong);
    await page.locator("#sheet-save").click();
    await page.getByText(/Row 4 \(w-3\)/).waitFor();
    await page.locator("#sheet").fill(sheet.replace("w-3;shed;harp;walnut-black;620 mm", "w-3;shed;harp;walnut-black;32 m"));
    await page.locator("#sheet-save").click();
    await page.getByText(/Row 4 .* at most \d+ m\b/).waitFor();
    await page.locator("#units").click(); // a maker who thinks in inches reads no millimetres
    await page.locator("#sheet").fill(sheet.replace("w-3;shed;harp;walnut-black;620 mm", "w-3;shed;harp;walnut-black;32 m"));
    await page.locator("#sheet-save").click();
    await page.getByText(/Row 4 .* at most [\d.]+ ft\b/).waitFor();
    await page.locator("#units").click();
    await page
      .locator("#sheet-file")
      .setInputFiles({ name: "wood.csv", mimeType: "text/csv", buffer: Buffer.from(sheet) });
    await page.waitForFunction(() => !document.querySelector("#sheet").value.includes("620 kg"));
    await page.locator("#sheet-save").click();
    await page.getByText("10 are on the rack now.").waitFor();
    await shot(page, "rack-added");
    assert.equal((await get(service, "billets")).total, 10);
    assert.deepEqual(quiet(faults), []);
    await close();
  });

  await step("task: a weighing day of ten billets, with one hand on a short telephone", async () => {
    await post(service, "weighing-days", { readings: ids.map((id, i) => weightOf(id, before[i], 30)) });
    const { page, faults, close } = await open(small, phone, service, "#/weigh");
    await page.locator("#kg").waitFor();
    for (const [name, at] of [
      ["the first key", page.locator(".pad button").first()],
      ["the last key", page.locator(".pad button").last()],
      ["Keep", page.locator("#keep")],
    ]) {
      const box = await at.boundingBox(),
        bar = await page.locator(".bar").boundingBox();
      assert.ok(
        box.y >= 0 && box.y + box.height <= bar.y,
        `${name} is in view: ${box.y} to ${box.y + box.height} of ${bar.y}`,
      );
      assert.ok(box.height >= 40 && box.width >= 44, `${name} is large enough for a thumb`);
    }
    await shot(page, "weigh-short-telephone");
    await noneBroken(page, "weighing day");
    let presses = 0,
      tries = 1;
    for (let i = 0; i < ids.length; i++) {
      assert.equal(await shownId(page), ids[i], "the round goes as the wood lies");
      presses += (await press(page, (before[i] - 0.04).toFixed(2))) + 1;
      await keep(page);
      await page.waitForFunction((id) => document.querySelector(".wcard .id")?.textContent !== id, ids[i]);
    }
    await page.getByText("All are weighed.").waitFor();
    await settled(page);
    const kept = await get(service, `readings?from=${day(0)}&limit=100`);
    assert.equal(kept.total, 10);
    assert.ok(tries <= 1);
    console.log(`    ${tries} try: ten weights in ${presses} presses`);
    assert.deepEqual(quiet(faults), []);
    await close();
  });

  await step("rack: undo of a line; two digits that changed places are asked about; kept all the same", async () => {
    const { page, faults, close } = await open({ width: 390, height: 844 }, phone, service, "#/weigh?of=billets/w-2");
    await page.locator("#kg").waitFor();
    assert.equal(await shownId(page), "w-2");
    await press(page, "5");
    assert.equal(await page.locator("#kgr .odd").count(), 0, "nothing is asked of half a number");
    await press(page, ".70");
    await page.locator("#kgr .odd").waitFor();
    await page.getByRole("button", { name: "5.07?" }).click();
    assert.equal(await page.locator("#kg").inputValue(), "5.07");
    for (let i = 0; i < 4; i++) await page.getByRole("button", { name: "delete the last" }).click();
    await press(page, "9.90");
    await shot(page, "weigh-odd");
    await noneBroken(page, "a weight that does not fit");
    await keep(page);
    if ((await shownNow(page)) === "w-2") await keep(page);
    const line = page.locator(".route li", { hasText: "w-2" }).first();
    await line.getByText("too much?").waitFor();
    await page.getByText("w-2, ", { exact: false }).and(page.locator(".odd b")).waitFor(); // that of the round before
    await page.getByRole("button", { name: "Put mine in its place" }).click();
    await settled(page);
    await line.getByRole("button", { name: /Undo/ }).click();
    await page.waitForFunction(() => document.querySelector(".state")?.textContent === "");
    await page.waitForFunction(() => document.querySelector(".wcard .id")?.textContent === "w-2");
    await press(page, "5.07");
    await page.getByText(/less than last time|more than last time|as last time/).waitFor();
    await keep(page);
    await settled(page);
    const { items } = await get(service, `readings?billet=w-2&from=${day(0)}&limit=100`);
    assert.ok(
      items.some((r) => r.reading.mass === "5.07 kg"),
      JSON.stringify(items),
    );
    assert.deepEqual(quiet(faults), []);
    await close();
  });

  await step(
    "rack: without a signal weights are safe on the phone, sent later, and two phones' are both shown",
    async () => {
      const { page, context, close } = await open(small, phone, service, "#/weigh?of=billets/w-4");
      await page.locator("#kg").waitFor();
      await page.evaluate(() => navigator.serviceWorker?.ready);
      await context.setOffline(true);
      for (const [id, mass] of [
        ["w-4", "5.46"],
        ["w-5", "5.66"],
        ["w-6", "5.86"],
      ]) {
        await page.locator(".route li").getByText(id, { exact: true }).first().waitFor();
        if ((await shownNow(page)) !== id) await page.goto(`${service}/#/weigh?of=billets/${id}`);
        await page.waitForFunction((i) => document.querySelector(".wcard .id")?.textContent === i, id);
        await press(page, mass);
        await keep(page);
        if (
          await page
            .locator("#kgr .odd")
            .isVisible()
            .catch(() => false)
        )
          await keep(page);
      }
      await page.getByText("No signal; 3 safe on this phone").waitFor();
      await shot(page, "weigh-no-signal");
      await correct(service, "w-5", "6.12 kg"); // by another phone
      await page.reload();
      await page.waitForSelector("body[data-started]");
      await page.getByText("No signal; 3 safe on this phone").waitFor();
      await context.setOffline(false);
      await page.getByText(/w-5, .*: two weights/).waitFor({ timeout: 30_000 });
      assert.match(await page.locator("main").innerText(), /On this phone: 5\.66 kg\s+On the rack: 6\.12 kg/);
      await noneBroken(page, "two weights");
      await shot(page, "weigh-conflict");
      for (let i = 0; i < 6 && (await page.getByText(/: two weights/).count()) > 0; i++) {
        const mine = page.getByRole("button", { name: "Put mine in its place" }).first();
        await mine.click();
        await page.waitForTimeout(300);
      }
      await settled(page);
      for (const [id, mass] of [
        ["w-4", "5.46 kg"],
        ["w-6", "5.86 kg"],
      ]) {
        const { items } = await get(service, `readings?billet=${id}&from=${day(0)}&limit=100`);
        assert.ok(
          items.some((r) => r.reading.mass === mass),
          `${id}: ${JSON.stringify(items)}`,
        );
      }
      await close();
    },
  );

  await step("rack: the list of a day pasted at a desk, its wrong line named", async () => {
    const { page, faults, close } = await open(desk, {}, service, "#/weigh");
    await page.locator("#paste").click();
    await page.locator("#list").fill(`id\tkg\nw-7\t6,05\nw-77\t6,25\nw-8\t6 lb`);
    await page.getByRole("button", { name: "Keep them" }).click();
    await page.getByText(/Line 3, “w-77\s6,25”: w-77 is not on the rack/).waitFor();
    await noneBroken(page, "a list pasted");
    await page.locator("#list").fill(`W-7\t6,05\nw-9; 6.44 kg; ${day(1)}`);
    await page.getByRole("button", { name: "Keep them" }).click();
    await page.getByRole("button", { name: "Put mine in its place" }).click(); // w-7 was weighed by telephone
    await settled(page);
    const { items } = await get(service, `readings?billet=w-9&from=${day(1)}&until=${day(1)}`);
    assert.equal(items[0].reading.mass, "6.44 kg");
    await shot(page, "weigh-desk");
    assert.deepEqual(quiet(faults), []);
    await close();
  });

  await step(
    "rack: what is ready, found and filtered, on a desk, a telephone of 320 points and in the dark",
    async () => {
      await fetch(`${service}/v1/rack/overview?wait_seconds=20`);
      for (const [name, viewport, more] of [
        ["desk", desk, {}],
        ["telephone", { width: 320, height: 640 }, phone],
        ["dark", { width: 390, height: 844 }, { ...phone, colorScheme: "dark" }],
      ]) {
        const { page, faults, close } = await open(viewport, more, service, "#/rack");
        await page.locator(".tiles").waitFor();
        assert.equal(await page.locator(".tiles a").count(), 4);
        assert.ok((await tooWide(page)) <= 0, `${name}: by ${await tooWide(page)} px`);
        await noneBroken(page, `rack, ${name}`);
        await shot(page, `rack-${name}`);
        await page.locator("#find").fill("W-10");
        await page.waitForFunction(() => document.querySelectorAll(".bl a").length === 1);
        await page.locator("#find").fill("no such wood");
        await page.getByText("None is found by that.").waitFor();
        await page.locator("#find").fill("");
        await page.locator("#place").selectOption("shop");
        const shown = await page.locator(".bl a .id").allInnerTexts();
        assert.ok(shown.length > 0 && shown.every((id) => Number(id.slice(2)) > 6), shown.join());
        assert.deepEqual(quiet(faults), []);
        await close();
      }
    },
  );

  await step("rack: a label leads to its billet, in any case; its course, a note and an event", async () => {
    const labels = await (await fetch(`${service}/v1/rack/labels?as=html`)).text();
    assert.equal((labels.match(/class="label"/g) || []).length, 10);
    for (const [name, viewport, more] of [
      ["desk", desk, {}],
      ["telephone", { width: 320, height: 640 }, phone],
    ]) {
      const { page, faults, close } = await open(viewport, more, service, "B/W-3");
      await page.locator("h1 .id", { hasText: "w-3" }).waitFor();
      assert.match(page.url(), /#\/rack\/billets\/w-3$/);
      await page.locator(".drawn .drawing").waitFor({ timeout: 30_000 });
      assert.ok((await tooWide(page)) <= 0, `${name}: by ${await tooWide(page)} px`);
      await noneBroken(page, `billet, ${name}`);
      await shot(page, `billet-${name}`);
      if (name === "desk") {
        await page.getByText("Write a note").click();
        await page.locator("#note").fill("a fine check has opened at the start");
        await page.getByRole("button", { name: "Keep" }).last().click();
        await page.getByText("a fine check has opened").first().waitFor();
        await page.getByText("Something was done").click();
        await page.locator("#ev-place").selectOption("shop");
        await page
          .locator("form", { has: page.locator("#ev-kind") })
          .getByRole("button", { name: "Keep" })
          .click();
        await page.locator(".life", { hasText: "moved" }).waitFor();
        assert.equal((await get(service, "billets/w-3")).place, "shop");
      }
      assert.deepEqual(quiet(faults), []);
      await close();
    }
  });

  await step("rack: one is planned by its id, sawn into leaves, and a leaf is weighed", async () => {
    const { page, faults, close } = await open(desk, {}, service, "#/rack/billets/w-8");
    await page.getByRole("link", { name: "Plan the cuts" }).click();
    await page.waitForSelector("form[data-route]");
    await page.locator("#all").click();
    for (const add of ["parts", "saws"]) {
      const button = page.locator(`#f-${add}-add`);
      if (
        (await button.count()) > 0 &&
        (await page.locator(`#f-${add}-0-${add === "parts" ? "length" : "kerf"}`).count()) === 0
      )
        await button.click();
    }
    await page.locator("#f-parts-0-length").fill("560");
    await page.locator("#f-parts-0-width").fill("170");
    await page.locator("#f-parts-0-final-thickness").fill("3");
    await page.locator("#f-saws-0-kerf").fill("1.5");
    const { said, wrong } = await ask(page);
    assert.ok(said, wrong);
    assert.match(said, /sets?/);
    await noneBroken(page, "a plan of a billet");
    await shot(page, "rack-plan");
    await page.goto(`${service}/#/rack/billets/w-8`);
    await page.getByText("It was sawn into leaves").click();
    await page
      .locator("form", { has: page.locator("#cut-count") })
      .getByRole("button", { name: "Keep the leaves" })
      .click();
    await page.getByText(/Enter: how many leaves/).waitFor();
    await page.locator("#cut-count").fill("3");
    await page.locator("#cut-thickness").fill("4,5");
    await page
      .locator("form", { has: page.locator("#cut-count") })
      .getByRole("button", { name: "Keep the leaves" })
      .click();
    await page.getByText("3 leaves are on the rack: w-8-1 to w-8-3.").waitFor();
    await page.goto(`${service}/#/weigh?of=pieces/w-8-2`);
    await page.waitForFunction(() => document.querySelector(".wcard .id")?.textContent === "w-8-2");
    await page.locator("#kg").fill("0,41");
    await keep(page);
    await settled(page);
    const { items } = await get(service, "readings?piece=w-8-2");
    assert.equal(items[0].reading.mass, "0.41 kg");
    assert.deepEqual(quiet(faults), []);
    await close();
  });

  await step("rack: a browser without a camera's eye takes the id as it is typed", async () => {
    const { page, faults, close } = await open({ width: 390, height: 844 }, phone, service, "#/weigh");
    await page.locator("#scan").click();
    await page.locator("#scan-id").fill(`${service.toUpperCase()}/B/W-9`);
    await noneBroken(page, "scan");
    await page.getByRole("button", { name: "Go to it" }).click();
    await page.waitForFunction(() => document.querySelector(".wcard .id")?.textContent === "w-9");
    await page.locator("#scan").click();
    await page.locator("#scan-id").fill("x-1");
    await page.getByRole("button", { name: "Go to it" }).click();
    await page.getByText("x-1 is not on the rack").waitFor();
    assert.deepEqual(quiet(faults), []);
    await close();
  });
}
