// Handing a find over: what was found, the listing file, and out of the page.

function drawHand() {
  const r = record(), find = r.find;
  const family = engine.has(find.family) ? engine.family(find.family) : null;
  replace(byId("content"),
    el("section", {}, el("h2", {}, "Found so far"),
      find.findings.length ? el("ul", { class: "rows" }, find.findings.map((f, i) => findingRow(f, i, family))) : el("p", {}, "Nothing yet.")),
    listingBox(find),
    el("section", {}, el("h2", {}, "This find"),
      el("div", { class: "choices" },
        button("Copy it as a new find", () => duplicate(r)),
        button("Delete it", () => removeFind(r), { class: "fault" }))));
}

function findingRow(f, i, family) {
  const about = subjectOf(f, family), value = valueOf(f, family);
  return el("li", { class: "finding" },
    el("span", {}, el("strong", {}, about), ": ", theirs(value),
      el("small", {}, ways[f.by] || f.by, f.note && [" \u2014 ", theirs(f.note)])),
    button("\u2715", () => change(about + ": taken back", (find) => find.findings.splice(i, 1)), { "aria-label": "Take back: " + about, "data-key": "drop " + i }));
}

// listingBox is the listing file that the command line reads.
function listingBox(find) {
  let text;
  try {
    text = engine.call("toml", find);
  } catch (e) {
    return el("section", { class: "notice bad" }, el("strong", {}, "No listing file yet: "), e.message, (e.lines || []).map((l) => el("p", {}, l)));
  }
  const area = el("textarea", { id: "listing", readonly: true, rows: 8, spellcheck: "false", value: text, "aria-label": "The listing file" });
  return el("section", {}, el("h2", {}, "Listing file"),
    el("p", {}, "lotgauge appraise reads it as it is."),
    el("div", { class: "choices" },
      button("Download", () => save(fileName(find, ".toml"), "application/toml", text), { class: "main" }),
      button("Copy", () => copy(area), { class: "main" }),
      engine.has(find.family) && button("Figures as JSON", () => save(fileName(find, ".json"), "application/json", engine.call("json", find)))),
    el("p", { id: "copied", class: "hint", role: "status" }), area);
}

// save hands text to the phone as a file.
function save(name, type, text) {
  const url = URL.createObjectURL(new Blob([text], { type: type + ";charset=utf-8" }));
  const link = el("a", { href: url, download: name, hidden: true });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}

// saveAll saves every find in one file, which Read a find takes back.
function saveAll() {
  save("finds-" + today() + ".json", "application/json", JSON.stringify({ format: 1, finds: store.all() }, null, 1));
}

// copy copies the text of a field; where the browser keeps its clipboard to
// itself the text is marked, to be copied by hand.
async function copy(area) {
  const said = byId("copied");
  area.focus();
  area.select();
  try {
    await navigator.clipboard.writeText(area.value);
    said.textContent = "Copied.";
  } catch (e) {
    said.textContent = document.execCommand("copy") ? "Copied." : "Copying is not allowed here: the text is marked, copy it by hand.";
  }
}

function duplicate(r) {
  const copied = { ...JSON.parse(JSON.stringify(r)), id: newID(), changed: Date.now() };
  copied.find.title = distinct(r.find.title + " (copy)");
  store.keep(copied);
  go("find", copied.id, "check");
}

function removeFind(r) {
  if (!confirm("Delete \u201c" + engine.clean(r.find.title) + "\u201d?")) return;
  store.remove(r.id);
  now.id = "";
  go("finds");
}
