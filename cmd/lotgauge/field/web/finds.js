// The finds, a new one, and one that is read in.

function drawFinds() {
  const all = store.all();
  replace(byId("content"),
    el("h1", {}, "Finds"),
    offerKeeping(),
    all.length ? el("ul", { class: "finds" }, all.map(findRow)) : el("p", {}, "None yet. Take a model in your hand and begin."),
    el("div", { class: "foot" },
      button("New find", () => go("new"), { class: "main" }),
      el("div", { class: "choices" },
        button("Read a find", () => go("import")),
        all.length > 0 && button("Save all finds", saveAll),
        button("Help", () => go("help")))),
    el("p", { class: "hint" }, dataLine()));
}

function dataLine() {
  const d = engine.data;
  const what = d.families.length === 1 ? "1 checklist" : d.families.length + " checklists";
  return what + ", prices as of " + d.made + "." + (d.demonstration ? " Demonstration data: makers, models and prices are invented." : "");
}

function findRow(r) {
  const s = r.summary, title = engine.data.families.find((f) => f.id === r.find.family);
  return el("li", {}, button([
    theirs(r.find.title, { class: "title" }),
    el("small", {}, (title ? title.title : r.find.family + " (not in this page)") + " \u00b7 " + count(r.find.findings.length, "finding")),
    s && el("span", { class: "sum " + s.verdict }, s.stop ? "stop at " + money(s.stop, s.currency) : "no stop price",
      s.careful ? " \u00b7 careful " + plain(s.careful) : "", s.ask ? " \u00b7 asked " + plain(number(s.ask)) : ""),
  ], () => go("find", r.id, "check"), { class: "row find", "data-key": "find " + r.id }));
}

const count = (n, noun) => n + " " + noun + (n === 1 ? "" : "s");

// newSheet is the sheet that a new find is bought by: the one chosen here, else
// the one that the page was made for, else that of the last find or the settings.
function newSheet() {
  const last = store.all().map((r) => r.find.buy).find((id) => engine.data.sheets.some((s) => s.id === id));
  return now.sheet || engine.data.new_buy || last || engine.data.buy;
}

// sheetChooser shows the sheet that the next find is bought by, and changes it.
function sheetChooser(id) {
  const sheet = engine.data.sheets.find((s) => s.id === id) || { title: id, currency: "" };
  const open = now.open === "sheets";
  return el("div", {},
    button([el("span", {}, "Bought by"), el("small", {}, el("strong", {}, sheet.title + ", " + sheet.currency))],
      () => { now.open = open ? "" : "sheets"; draw(); },
      { class: "row", "aria-expanded": String(open), "data-key": "sheets" }),
    open && el("div", { class: "choices opened" }, engine.data.sheets.map((s) =>
      button([s.title, el("small", {}, s.currency)], () => { Object.assign(now, { sheet: s.id, open: "" }); draw(); },
        { "aria-pressed": String(s.id === id), "data-key": "sheet " + s.id }))));
}

function drawNew() {
  const sheet = newSheet();
  replace(byId("content"),
    sheetChooser(sheet),
    el("h1", {}, "What is it?"),
    el("ul", { class: "finds" }, engine.data.families.map((f) => el("li", {}, button(
      [theirs(f.title, { class: "title" }), el("small", {}, count(f.variants, "number") + ", " + count(f.points, "point"))],
      () => {
        const r = newRecord(f.id, sheet);
        store.keep(r);
        go("find", r.id, "check");
      }, { class: "row find", "data-key": "family " + f.id })))));
}

function drawImport() {
  const area = el("textarea", { id: "incoming", rows: 10, spellcheck: "false", placeholder: "format = 1\u2026", "aria-label": "Text of a listing file" });
  const file = el("input", { id: "file", type: "file", accept: ".toml,.json,.txt,text/plain" });
  file.addEventListener("change", guarded(async () => {
    if (file.files[0]) area.value = await file.files[0].text();
  }));
  replace(byId("content"),
    el("h1", {}, "Read a find"),
    el("p", {}, "A listing file, or a file of saved finds. Choose it, or paste its text."),
    el("div", { class: "fields" }, file, area, button("Read it", () => readIn(area.value), { class: "main" })),
    el("div", { id: "read", role: "status" }));
}

// readIn takes finds out of a text: saved ones, or a listing file.
function readIn(text) {
  try {
    const records = text.trimStart().startsWith("{") ? savedFinds(text) : [fromListing(text)];
    for (const r of records) store.keep(r);
    go(...(records.length === 1 ? ["find", records[0].id, "check"] : ["finds"]));
  } catch (e) {
    replace(byId("read"), el("div", { class: "notice bad", role: "alert" }, el("p", {}, "It cannot be read:"),
      el("ul", {}, [e.message, ...(e.lines || [])].map((l) => el("li", {}, l)))));
    byId("read").scrollIntoView({ block: "nearest" });
  }
}

// savedFinds are finds as Save all finds wrote them. They come in as new ones
// beside those that are here, unless they are the same.
function savedFinds(text) {
  const saved = JSON.parse(text);
  if (!saved || saved.format !== 1 || !Array.isArray(saved.finds)) throw new Error("not a file of saved finds");
  return saved.finds.map(checked).map((r) => {
    const here = store.finds.get(r.id);
    return here && JSON.stringify(here.find) !== JSON.stringify(r.find) ? { ...r, id: newID() } : r;
  });
}

function fromListing(text) {
  const find = engine.call("read", text);
  return { id: newID(), changed: Date.now(), passed: [], summary: null, find: { ...find, date: find.date || today() } };
}
