// The page: where it is, what it shows, what happens on a change.

// at is the place in the page; its text form stands behind the # of the address,
// so that the phone's own way back works.
let at = { screen: "finds", id: "", tab: "" };

// now is the open find: its record, its figures, and what was before.
const now = { id: "", figure: null, before: null, error: null, whole: false, undo: [], told: false, open: "", last: "" };

// Times that the help shows, in milliseconds: until the page was ready, until the
// first figure since there was a find to figure, and of the last change.
const times = { ready: 0, first: 0, last: 0, full: 0 };

const tabs = [
  ["check", "Next check"],
  ["points", "All points"],
  ["model", "Which one"],
  ["deal", "Deal"],
  ["hand", "Hand over"],
];

function readPlace() {
  const [screen, id, tab] = decodeURIComponent(location.hash.slice(1)).split("/");
  at = { screen: screen || "finds", id: id || "", tab: tab || "check" };
  if (at.screen === "find" && !store.finds.has(at.id)) at = { screen: "finds", id: "", tab: "" };
}

function go(screen, id, tab) {
  const hash = "#" + [screen, id, tab].filter(Boolean).join("/");
  if (location.hash === hash) draw();
  else location.hash = hash;
}

// record is the open find.
const record = () => store.finds.get(now.id);

// enter makes a find the open one.
function enter(id) {
  if (now.id === id) return;
  Object.assign(now, { id, figure: null, before: null, error: null, whole: false, undo: [], open: "", last: "" });
  refigure();
}

// change changes the open find, keeps it and figures anew. What it says can be
// taken back; what is typed into one field, all at once. While somebody types
// only the head is drawn anew.
function change(said, act, options) {
  const r = record(), started = performance.now();
  const again = options && options.typed && now.undo.length && now.undo[now.undo.length - 1].typed === options.typed;
  if (!again) now.undo.push({ find: JSON.stringify(r.find), passed: r.passed.slice() });
  Object.assign(now.undo[now.undo.length - 1], { said, typed: options && options.typed });
  if (now.undo.length > 50) now.undo.shift();
  act(r.find, r);
  now.last = said;
  altered(r, started, options);
}

function undo() {
  const r = record(), last = now.undo.pop(), started = performance.now();
  if (!last) return;
  r.find = JSON.parse(last.find);
  r.passed = last.passed;
  now.last = now.undo.length ? now.undo[now.undo.length - 1].said : "";
  altered(r, started);
}

function altered(r, started, options) {
  r.changed = Date.now();
  store.keep(r);
  refigure(started);
  store.keep(r);
  if (!options || !options.typed) draw();
  else drawHead();
  times.last = performance.now() - started;
}

// refigure figures the open find at once, and with all draws once nothing has
// changed for a while.
function refigure() {
  const r = record();
  now.before = now.error ? null : now.figure;
  try {
    now.error = engine.has(r.find.family) ? null : { message: "This page has no checklist " + r.find.family + ". The find is kept and can be handed over." };
    now.figure = now.error ? null : engine.quick(r);
  } catch (e) {
    if (e.broken) failure(e);
    now.error = e;
    now.figure = null;
  }
  now.whole = Boolean(now.figure) && now.figure.draws >= engine.data.draws;
  if (now.figure) r.summary = summaryOf(now.figure, r.find);
  if (!times.first && now.figure) times.first = performance.now() - touchedAt; // a find that was open is figured from the start on
  clearTimeout(refigure.later);
  if (now.figure && !now.whole) refigure.later = setTimeout(guarded(settle), 700);
}

// settle figures with all draws, and shows the result unless the find has
// changed meanwhile.
async function settle() {
  const r = record(), asked = r.changed, id = r.id, started = performance.now();
  const told = now.told;
  const figure = await engine.full(r);
  times.full = performance.now() - started;
  if (now.id !== id || r.changed !== asked || now.told !== told || now.error) return;
  now.figure = figure;
  now.whole = true;
  r.summary = summaryOf(figure, r.find);
  store.keep(r);
  redraw();
}

// redraw draws anew what changes by itself. Where somebody is typing, the fields
// stay as they are.
function redraw() {
  const typing = document.activeElement;
  if (!typing || !/^(INPUT|TEXTAREA)$/.test(typing.tagName)) return draw();
  drawHead();
  if (byId("bill")) replace(byId("bill"), bill());
}

const summaryOf = (figure, find) => ({
  verdict: figure.verdict, currency: figure.bid_currency, ask: find.ask || "",
  stop: figure.stop && figure.stop.bid, careful: figure.careful && figure.careful.bid,
});

// draw shows the place that the page is at.
function draw() {
  const screens = { finds: drawFinds, new: drawNew, find: drawFind, import: drawImport, help: drawHelp };
  document.body.dataset.screen = at.screen in screens ? at.screen : "finds";
  if (at.screen === "find") enter(at.id);
  else now.id = "";
  drawNotes();
  drawHead();
  (screens[at.screen] || drawFinds)();
  drawTabs();
}

const findTabs = { check: drawCheck, points: drawPoints, model: drawModel, deal: drawDeal, hand: drawHand };

function drawFind() {
  if (!engine.has(record().find.family)) at.tab = "hand";
  (findTabs[at.tab] || drawCheck)();
}

function drawTabs() {
  const bar = byId("tabs");
  bar.hidden = at.screen !== "find";
  if (bar.hidden) return replace(bar);
  replace(bar, tabs.map(([tab, title]) =>
    button(title, () => go("find", at.id, tab), { "aria-current": at.tab === tab ? "page" : null })));
}

// drawNotes says what concerns the whole page: storage that does not work, and
// data that nobody should take for real.
function drawNotes() {
  const notes = [];
  if (store.why) {
    notes.push(el("div", { class: "notice bad", role: "alert" },
      el("strong", {}, "Finds are not kept: "), store.why + ". They stay here as long as this page is open; save them before you close it. ",
      store.finds.size > 0 && button("Save all finds", saveAll)));
  }
  if (store.damaged.length) {
    notes.push(el("div", { class: "notice bad" }, store.damaged.length === 1 ? "A kept find cannot be read. " : store.damaged.length + " kept finds cannot be read. ",
      "The storage keeps it as it is. ", button("Save its text", () => save("unreadable-finds.txt", "text/plain", store.damaged.map((d) => d.key + "\n" + d.text).join("\n\n")))));
  }
  replace(byId("notes"), notes);
}

async function begin() {
  const shell = ["notes", "head", "content", "tabs"].map((id) => el({ head: "header", content: "main", tabs: "nav" }[id] || "div", { id }));
  replace(byId("app"), el("div", { id: "failure", class: "notice bad", role: "alert", hidden: true }), shell);
  byId("tabs").hidden = true;
  byId("tabs").setAttribute("aria-label", "Parts of the find");
  replace(byId("content"), el("p", { class: "still" }, "Starting\u2026"));
  store.open();
  try {
    await engine.start();
  } catch (e) {
    return stranded(e);
  }
  times.ready = performance.now();
  addEventListener("hashchange", guarded(() => {
    readPlace();
    scrollTo(0, 0); // first: a drawing may go to where something is open
    byId("content").scrollTop = 0;
    draw();
  }));
  readPlace();
  draw();
}

// stranded is the page without its engine: the finds can still be saved.
function stranded(e) {
  const spoiled = document.characterSet !== "windows-1252";
  replace(byId("content"),
    el("h1", {}, "The page cannot figure here"),
    el("p", {}, spoiled
      ? "It was read as " + document.characterSet + " and must be read as windows-1252: it was changed on its way, or its server names another encoding. Hand the file over once more, unchanged."
      : "What happened: " + (e && e.message ? e.message : e) + "."),
    el("p", {}, "The browser must know WebAssembly (any since 2018) and let the page use it. Another browser on this phone may do."),
    store.finds.size > 0 && button("Save all finds", saveAll, { class: "main" }));
}

begin();
