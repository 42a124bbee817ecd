// The pages work without this. With it a change is heard as it is worked out and can be stopped, the
// place on the page is kept, a food's card opens in its row, the ribbon is read hour by hour, and
// the dial shows at once what each of its places comes to. All words come from the server.
const $ = (what, where = document) => where.querySelector(what);
const all = (what, where = document) => where.querySelectorAll(what);
let busy = false; // one piece of work at a time

// The line that says how far the work is; its button keeps the best so far.
function working(text, stop) {
  let bar = $("#working");
  if (!text) return bar?.remove();
  if (!bar) {
    bar = Object.assign(document.createElement("form"), { id: "working" });
    bar.append(document.createElement("span"));
    $("#main").before(bar);
  }
  if (stop && !$("button.stop", bar)) {
    for (const old of all("button, a", bar)) old.remove();
    const button = Object.assign(document.createElement("button"), { type: "button", className: "stop", textContent: document.body.dataset.stop });
    button.addEventListener("click", () => { button.disabled = true; $("span", bar).textContent = document.body.dataset.stopping; stop(); });
    bar.append(button);
  }
  if (!$("button.stop", bar)?.disabled) $("span", bar).textContent = text;
}

function tell(text) { const line = $("#changed"); if (line) line.textContent = text; }

// What went wrong is said and read out on every page, below its heading.
function complain(text) {
  if (!$("#changed")) $("h1").after(Object.assign(document.createElement("p"), { id: "changed", role: "status" }));
  tell(text);
  $("#changed").tabIndex = -1;
  $("#changed").focus();
}

function show(html, url) {
  const next = new DOMParser().parseFromString(html, "text/html");
  const at = scrollY;
  $("#main").replaceWith(document.adoptNode($("#main", next)));
  const nav = $("header nav", next);
  if (nav && $("header nav")) $("header nav").replaceWith(document.adoptNode(nav));
  document.title = next.title;
  if (url && url !== location.pathname) history.pushState(null, "", url);
  wake();
  const line = $("#changed") ?? $("[role=alert]") ?? $("h1");
  const same = location.pathname === lastPath;
  lastPath = location.pathname;
  scrollTo(0, same ? at : 0);
  line.tabIndex = -1;
  line.focus({ preventScroll: same }); // what it says is read out
}
let lastPath = location.pathname;

async function* events(answer) {
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let held = "";
  for (;;) {
    const { value, done } = await reader.read();
    if (done) return;
    const parts = (held + value).split("\n\n");
    held = parts.pop();
    for (const part of parts) {
      const kind = /^event: (.*)$/m.exec(part), data = /^data: (.*)$/m.exec(part);
      if (kind && data) yield [kind[1], JSON.parse(data[1])];
    }
  }
}

// Hears a piece of work to its end, and shows what became of it.
async function follow(answer, token) {
  if (answer.headers.get("content-type")?.startsWith("text/plain")) return complain(await answer.text());
  if (!heard(answer)) {
    const at = new URL(answer.url);
    return show(await answer.text(), at.pathname.endsWith("/work") ? "" : at.pathname);
  }
  let trip = "";
  const stop = () => fetch(`/trip/${trip}/stop`, {
    method: "post", body: new URLSearchParams({ token }), headers: { accept: "text/event-stream" },
  });
  for await (const [kind, value] of events(answer)) {
    if (kind === "begun") { trip = value; working(document.body.dataset.planning, stop); }
    if (kind === "best") working(value, stop);
    if (kind === "page") return show(value);
    if (kind === "done") {
      const page = await fetch(value);
      return show(await page.text(), value.replace(/[?#].*$/, ""));
    }
  }
  complain(document.body.dataset.lost);
}

async function during(work) {
  if (busy) return;
  busy = true;
  working(document.body.dataset.planning);
  tell(document.body.dataset.planning);
  try {
    await work();
  } catch {
    complain(document.body.dataset.lost);
  } finally {
    busy = false;
    working("");
  }
}

const listening = { headers: { accept: "text/event-stream" } };

function send(form, button) {
  return during(async () => {
    const given = new FormData(form, button);
    const body = form.enctype === "multipart/form-data" ? given : new URLSearchParams(given);
    await follow(await fetch(form.action, { method: "post", body, ...listening }), given.get("token"));
  });
}

const heard = (answer) => answer.headers.get("content-type")?.startsWith("text/event-stream");

// Work that goes on while the page was loaded again is heard on. Another browser's is not told
// here: a page that only waits for it looks again.
function resume(bar) {
  const token = $("input[name=token]", bar).value, waits = $("[data-waits]");
  during(async () => {
    const answer = await fetch(bar.dataset.src, listening);
    if (heard(answer) || (!waits && answer.status !== 204)) return follow(answer, token);
    if (waits) setTimeout(() => location.reload(), 2000);
  });
}

document.addEventListener("submit", (event) => {
  if (!("live" in event.target.dataset)) return;
  event.preventDefault();
  send(event.target, event.submitter);
});
addEventListener("popstate", () => location.reload());

// A food's card opens in its row; Escape closes it and goes back to the food.
document.addEventListener("click", async (event) => {
  const link = event.target.closest("a.eats, a.put");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  const row = link.closest(".meal") ?? link.closest("#card");
  if (!row) return;
  event.preventDefault();
  const text = await (await fetch(link.href)).text();
  const card = $("#card", new DOMParser().parseFromString(text, "text/html"));
  if (!card) return location.assign(link.href);
  const place = row.closest(".meal") ?? row;
  for (const open of all("#card.inrow")) if (open !== row) open.remove();
  card.classList.add("inrow");
  card.dataset.from = row.id === "card" ? row.dataset.from : link.getAttribute("href");
  const head = $("h1", card), low = document.createElement("h5");
  low.textContent = head.textContent; low.className = "title"; low.tabIndex = -1;
  head.replaceWith(low);
  for (const h of all("h2", card)) { const h6 = document.createElement("h6"); h6.textContent = h.textContent; h.replaceWith(h6); }
  if (row.id === "card") row.replaceWith(document.adoptNode(card)); else place.append(document.adoptNode(card));
  low.focus();
});
document.addEventListener("keydown", (event) => {
  const card = event.key === "Escape" && event.target.closest("#card.inrow");
  if (!card) return;
  const from = card.dataset.from;
  card.remove();
  $(`a[href="${CSS.escape(from)}"]`)?.focus();
});

// The ribbon, hour by hour.
function read(figure) {
  const box = $(".reading", figure), slider = $("input", box), out = $("output", box);
  const lines = {};
  let data = null;
  const load = async () => { data ??= await (await fetch(figure.dataset.src)).json(); slider.max = data.says.length - 1; return data; };
  const point = () => {
    const k = Number(slider.value);
    out.textContent = data.says[k];
    slider.setAttribute("aria-valuetext", data.says[k]);
    for (const width of ["broad", "narrow"]) {
      const svg = $(`.${width} svg`, figure), [x, top, bottom] = data[width][k];
      if (!lines[width]?.isConnected) {
        lines[width] = document.createElementNS("http://www.w3.org/2000/svg", "line");
        lines[width].setAttribute("class", "cursor");
        svg.append(lines[width]);
      }
      for (const [name, value] of [["x1", x], ["x2", x], ["y1", top], ["y2", bottom]]) lines[width].setAttribute(name, value);
    }
  };
  box.hidden = false;
  slider.addEventListener("input", async () => { await load(); point(); });
  slider.addEventListener("focus", async () => { await load(); point(); });
  for (const width of ["broad", "narrow"]) {
    const svg = $(`.${width} svg`, figure);
    svg.addEventListener("pointermove", async (event) => {
      await load();
      const frame = svg.getBoundingClientRect(), scale = svg.viewBox.baseVal.width / frame.width;
      const x = (event.clientX - frame.left) * scale, y = (event.clientY - frame.top) * scale;
      let best = 0, least = Infinity;
      data[width].forEach(([px, top, bottom], k) => {
        const off = Math.abs(px - x) + (y < top - 40 || y > bottom + 8 ? 1e4 : 0);
        if (off < least) [best, least] = [k, off];
      });
      slider.value = best;
      point();
    });
  }
}

// A label is judged as it is typed: faults beside their fields, doubts below the numbers.
function judge(box) {
  const form = box.closest("form"), note = $(".note", box), list = $("ul", box), sure = $(".sure", form);
  let timer = 0, asked = 0;
  const beside = (field, texts) => {
    const id = `${field.id}-f`, told = texts?.join(" ") ?? "";
    let said = $(`#${id}`, form);
    const others = (field.getAttribute("aria-describedby") ?? "").split(" ").filter((one) => one && one !== id);
    if (!told) { said?.remove(); field.removeAttribute("aria-invalid"); }
    else {
      if (!said) { said = Object.assign(document.createElement("span"), { className: "fault", id }); field.after(said); }
      if (said.textContent !== told) said.textContent = told;
      field.setAttribute("aria-invalid", "true");
      field.dataset.now = "yes"; // said while typing, so it goes when the field is emptied
      others.push(id);
    }
    if (others.length) field.setAttribute("aria-describedby", others.join(" ")); else field.removeAttribute("aria-describedby");
  };
  const ask = async () => {
    const mine = ++asked, fields = [...form.elements].filter((e) => e.id && /^[a-z_0-9]+$/.test(e.name));
    const typed = fields.filter((e) => e.value.trim());
    const answer = await fetch(`${box.dataset.src}?${new URLSearchParams(typed.map((e) => [e.name, e.value]))}`);
    if (!answer.ok || mine !== asked) return;
    const { doubts, faults } = await answer.json();
    for (const field of fields) if (field.value.trim() || field.dataset.now) beside(field, faults[field.name]);
    if (doubts.join() === [...list.children].map((one) => one.textContent).join()) return;
    $("#doubted")?.remove();
    list.replaceChildren(...doubts.map((text) => Object.assign(document.createElement("li"), { textContent: text })));
    note.hidden = sure.hidden = doubts.length === 0;
    $("input", sure).checked = false; // it was about other doubts
  };
  form.addEventListener("input", (event) => {
    if (event.target.name === "confirmed") return;
    clearTimeout(timer);
    timer = setTimeout(() => ask().catch(() => {}), 350);
  });
}

// A day of a large party stays open or closed over a change; what the change is in opens.
const folds = new Map(); // id -> whether it was left open
function remember(day) {
  if (folds.has(day.id)) day.open = folds.get(day.id) || $(".new", day) !== null;
  day.addEventListener("toggle", () => folds.set(day.id, day.open));
}

// A part of a long walk opens where its line stands; after a change it is open still.
const unfolded = new Map(); // id -> how tall it was, so that the place on the page is kept
function unfold(part) {
  part.addEventListener("toggle", async () => {
    if (!part.open) return unfolded.delete(part.id);
    if (part.dataset.full) return;
    part.dataset.full = "yes";
    const text = await (await fetch(part.dataset.src)).text();
    const inner = $("#part", new DOMParser().parseFromString(text, "text/html"));
    if (!inner) return;
    inner.removeAttribute("id");
    for (const old of all(":scope > :not(summary)", part)) old.remove();
    part.append(document.adoptNode(inner));
    part.style.minHeight = "";
    unfolded.set(part.id, part.offsetHeight);
    for (const figure of all("figure.ribbon", part)) read(figure);
    for (const day of all("details:not([data-src])", part)) remember(day);
  });
  if (!unfolded.has(part.id)) return;
  part.style.minHeight = `${unfolded.get(part.id)}px`;
  part.open = true;
}

// The dial: each place is a whole plan, made ahead while the page is read.
async function prepare(dial) {
  const answer = await fetch(dial.dataset.src);
  if (!answer.ok || !dial.isConnected) return;
  const { places } = await answer.json();
  const slider = $("input", dial), take = $(".take", dial), said = $(".said", dial);
  const turn = () => {
    const here = places.find((place) => place.step === Number(slider.value));
    if (!here) return;
    const still = places.find((place) => place.step === 0);
    for (const [key, text] of Object.entries(here.figures)) {
      const shown = $(`[data-figure="${key}"]`);
      if (!shown) continue;
      shown.textContent = text;
      shown.classList.toggle("off", text !== still.figures[key]);
    }
    said.textContent = here.says;
    said.hidden = take.hidden = here.step === 0;
    take.value = here.wish;
    slider.setAttribute("aria-valuetext", here.says);
  };
  slider.min = places[0].step;
  slider.max = places.at(-1).step;
  slider.value = 0;
  slider.hidden = false;
  slider.setAttribute("aria-valuetext", places.find((place) => place.step === 0).says);
  slider.addEventListener("input", turn);
}

async function wake() {
  for (const figure of all("figure.ribbon[data-src]")) read(figure);
  for (const part of all("details.stretch")) part.dataset.src ? unfold(part) : remember(part);
  for (const box of all(".judged")) judge(box);
  for (const dial of all(".dial[data-src]")) await prepare(dial).catch(() => {});
}
if (location.search.includes("was=")) {
  history.replaceState(null, "", location.pathname);
  $("#changed")?.focus({ preventScroll: true });
}
wake();
if ($("#working[data-src]")) resume($("#working"));
