// The small helper of the pages: sliders and a moving answer at the design desk, a search over long
// lists, fields that matter for one form of material, and sales kept on this device while the shop
// cannot be reached. Every page works without it.
"use strict";

// ---- The design desk: an answer that follows the fields ----

const desk = document.getElementById("desk");
const answer = document.getElementById("answer");

function parts(text) {
  const found = /^\s*([0-9]+(?:[.,][0-9]+)?)\s*(.*)$/.exec(text || "");
  return found ? { number: parseFloat(found[1].replace(",", ".")), unit: found[2] } : null;
}

function addSlider(field) {
  const usual = parts(field.dataset.usual);
  if (!usual || usual.number <= 0) return;
  const least = parts(field.dataset.least);
  const most = parts(field.dataset.most);
  const whole = field.dataset.whole === "yes";
  const slider = document.createElement("input");
  slider.type = "range";
  slider.min = least ? least.number : whole ? 1 : usual.number / 2;
  slider.max = most ? most.number : usual.number * 2;
  slider.step = whole || usual.number >= 20 ? 1 : 0.1;
  const now = parts(field.value);
  slider.value = now ? now.number : usual.number;
  slider.setAttribute("aria-label", (field.labels[0] ? field.labels[0].textContent : field.name) + ", slider");
  slider.addEventListener("input", () => {
    const unit = (parts(field.value) || usual).unit;
    field.value = slider.value + (unit ? " " + unit : "");
    asked();
  });
  field.addEventListener("input", () => {
    const typed = parts(field.value);
    if (typed) slider.value = typed.number;
  });
  field.after(slider);
}

let waits = null;
let running = false;
let again = null;

// One question at a time. Of those that come meanwhile only the latest is asked.
async function ask(effort) {
  if (running) { again = effort; return; }
  running = true;
  answer.setAttribute("aria-busy", "true");
  const values = new URLSearchParams(new FormData(desk));
  if (effort) values.set("effort", effort);
  try {
    const response = await fetch(desk.dataset.answer + "?" + values.toString());
    const open = [...answer.querySelectorAll("details")].map((one) => one.open);
    answer.innerHTML = await response.text();
    [...answer.querySelectorAll("details")].forEach((one, i) => { if (i < open.length) one.open = open[i]; });
    const query = document.querySelector("input[name=query]");
    if (query) query.value = new URLSearchParams(new FormData(desk)).toString();
  } catch (error) {
    answer.querySelector(".figures")?.setAttribute("title", "The shop cannot be reached.");
  }
  answer.removeAttribute("aria-busy");
  running = false;
  if (again !== null) { const next = again; again = null; ask(next); }
}

function asked() {
  ask("quick");
  clearTimeout(waits);
  waits = setTimeout(() => ask(""), 700);
}

if (desk && answer) {
  desk.querySelectorAll("input[data-usual]").forEach(addSlider);
  desk.addEventListener("input", (event) => { if (event.target.type !== "range") asked(); });
  desk.addEventListener("submit", (event) => { event.preventDefault(); ask(""); });
}

// ---- Long lists: find a row as one types ----

document.querySelectorAll("[data-find]").forEach((list) => {
  const label = document.createElement("label");
  label.textContent = list.dataset.find + " ";
  const field = document.createElement("input");
  field.type = "text";
  label.append(field);
  list.before(label);
  field.addEventListener("input", () => {
    const wanted = field.value.toLowerCase();
    list.querySelectorAll("tbody tr").forEach((row) => {
      row.hidden = !row.textContent.toLowerCase().includes(wanted);
    });
  });
});

// ---- A new material: only the fields that its form has ----

document.querySelectorAll("select[name=form]").forEach((choice) => {
  const show = () => choice.form.querySelectorAll("[data-only]").forEach((field) => {
    field.hidden = !field.dataset.only.split(" ").includes(choice.value);
  });
  choice.addEventListener("change", show);
  show();
});

// ---- The stall: a sale is kept on this device until the shop has booked it ----

const shelf = "paperbarrow-waiting-sales";
const place = () => document.getElementById("waiting");

function kept() {
  try { return JSON.parse(localStorage.getItem(shelf)) || []; } catch { return []; }
}

function keep(sales) {
  localStorage.setItem(shelf, JSON.stringify(sales));
}

function paragraph(words, kind) {
  const line = document.createElement("p");
  line.textContent = words;
  if (kind) line.className = kind;
  return line;
}

function showWaiting() {
  const waiting = place();
  if (!waiting) return;
  const sales = kept();
  waiting.hidden = sales.length === 0;
  waiting.replaceChildren();
  if (sales.length > 0) {
    const text = document.createElement("textarea");
    text.readOnly = true;
    text.rows = Math.min(6, sales.length + 1);
    text.setAttribute("aria-label", "Sales that wait, as text: fair, journal, price");
    text.value = sales.map((sale) => [sale.fair, sale.serials, sale.price].join(" ")).join("\n");
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = "Try now";
    button.addEventListener("click", sendAll);
    waiting.append(
      paragraph("Not yet in the book: " + sales.length + (sales.length === 1 ? " sale." : " sales.")
        + " Leave this page open; they are booked when the shop can be reached again."),
      text, button,
      ...sales.filter((sale) => sale.problem)
        .map((sale) => paragraph(sale.serials + ": " + sale.problem, "problem")));
  }
  const sold = new Set(sales.map((sale) => sale.serials));
  document.querySelectorAll("form[data-sale]").forEach((form) => {
    form.hidden = sold.has(form.dataset.sale);
  });
}

// Gives why the shop did not take a sale, or nothing. Throws where the shop cannot be reached.
async function send(sale) {
  const response = await fetch("/stall/fair/" + encodeURIComponent(sale.fair) + "/sell", {
    method: "POST",
    headers: { "Content-Type": "application/x-www-form-urlencoded" },
    body: new URLSearchParams({ key: sale.key, serials: sale.serials, price: sale.price }),
  });
  if (response.ok) return null;
  const page = new DOMParser().parseFromString(await response.text(), "text/html");
  const said = page.querySelector(".problem, main p, body p");
  return said ? said.textContent.trim() : "The shop did not take it (" + response.status + ").";
}

// The page as it is now, in place of what is shown. Not by loading it again: if the connection is
// lost in that moment, the page would be lost with it.
async function refresh() {
  const response = await fetch(location.href);
  if (!response.ok) return;
  const page = new DOMParser().parseFromString(await response.text(), "text/html");
  document.querySelector("main").replaceWith(page.querySelector("main"));
}

let sending = false;
async function sendAll() {
  if (sending) return;
  sending = true;
  try {
    let booked = 0;
    for (const sale of kept()) {
      const problem = await send(sale);
      const rest = kept().filter((other) => other.key !== sale.key);
      if (problem) rest.push({ ...sale, problem }); else booked += 1;
      keep(rest);
    }
    if (booked > 0) await refresh();
  } catch { /* tried again later */ }
  sending = false;
  showWaiting();
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!form.dataset.sale || !place()) return;
  event.preventDefault();
  const fields = new FormData(form);
  keep([...kept(), {
    fair: place().dataset.fair, serials: fields.get("serials"), price: fields.get("price"),
    key: fields.get("key"),
  }]);
  showWaiting();
  sendAll();
});

if (place()) {
  showWaiting();
  sendAll();
  window.addEventListener("online", sendAll);
  setInterval(() => { if (kept().length > 0) sendAll(); }, 15000);
  window.addEventListener("beforeunload", (event) => { if (kept().length > 0) event.preventDefault(); });
}
