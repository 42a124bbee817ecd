// Keeps the ticks of a phone page, opens today's day, and tells the ticks as a short text:
//   tally <plan>          one line, then a line per ticked thing: day, meal, food
//   fuel <grams>, note <words>
// The page is whole without this; storage may be missing, and then ticks last as long as the page.
const main = document.querySelector("main");
const name = "tally-" + main.dataset.plan;
const boxes = [...document.querySelectorAll("input[data-key]")];
const fuel = document.getElementById("fuel");
const note = document.getElementById("note");
const told = document.getElementById("told");
const recall = () => { try { return JSON.parse(localStorage.getItem(name)) || {}; } catch { return {}; } };
const keep = (state) => { try { localStorage.setItem(name, JSON.stringify(state)); } catch { /* no storage */ } };
const ticked = () => boxes.filter((box) => box.checked).map((box) => box.dataset.key);
const tell = () => {
  const lines = ["tally " + main.dataset.plan, ...ticked()];
  if (fuel.value.trim()) lines.push("fuel " + fuel.value.trim());
  if (note.value.trim()) lines.push("note " + note.value.trim().replace(/\s+/g, " "));
  told.value = lines.join("\n");
};
const changed = () => { keep({ ticks: ticked(), fuel: fuel.value, note: note.value }); tell(); };
const state = recall();
for (const box of boxes) {
  box.checked = (state.ticks || []).includes(box.dataset.key);
  box.addEventListener("change", changed);
}
fuel.value = state.fuel || "";
note.value = state.note || "";
fuel.addEventListener("input", changed);
note.addEventListener("input", changed);
document.getElementById("copy").addEventListener("click", async () => {
  const done = document.getElementById("copied");
  told.select();
  try { await navigator.clipboard.writeText(told.value); } catch { document.execCommand("copy"); }
  done.textContent = done.dataset.done;
});
document.getElementById("tally").hidden = false;
const now = new Date();
const today = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
const here = document.querySelector(`details[data-day="${today}"]`);
if (here) {
  for (const day of document.querySelectorAll("details[data-day]")) day.open = day === here;
}
tell();
