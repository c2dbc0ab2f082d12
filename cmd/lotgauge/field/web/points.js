// All points by area, and what a test on the track shows.

function drawPoints() {
  const find = record().find, family = engine.family(find.family);
  replace(byId("content"),
    evidenceSwitch(),
    undoLine(),
    el("section", {}, el("h2", {}, "On the track"), el("ul", { class: "rows" }, family.symptoms.map((s) => symptomRow(s, find)))),
    family.areas.map((a) => el("section", {},
      el("h2", {}, capital(a.title)),
      el("ul", { class: "rows" }, a.points.filter((p) => applies(p)).map((p) => pointRow(p, find))))));
  const opened = now.open && document.querySelector('[aria-expanded="true"]');
  if (opened && now.jump !== now.open) opened.scrollIntoView({ block: "center" });
  now.jump = now.open;
}

// applies tells whether the model may have the point at all.
function applies(point) {
  const b = now.figure && now.figure.points.find((x) => x.id === point.id);
  return !b || b.applies > 0;
}

function pointRow(p, find) {
  const key = "point " + p.id, open = now.open === key;
  return el("li", {},
    rowButton(key, p.title, found(find, { point: p.id }), likely(p)),
    open && el("div", { class: "opened" },
      now.told && p.ask ? el("blockquote", {}, p.ask) : p.how && el("p", {}, p.how),
      careFor(p.see).map((c) => el("p", { class: "care" }, c)),
      stateButtons(p),
      el("div", { class: "pass" }, button("Not shown", () => answer(p.title + ": not shown", { point: p.id }, { by: "hidden" }), { "data-key": "hidden " + p.id }))));
}

function symptomRow(s, find) {
  const key = "symptom " + s.id, open = now.open === key;
  const belief = now.figure && now.figure.symptoms.find((x) => x.id === s.id);
  return el("li", {},
    rowButton(key, s.title, found(find, { symptom: s.id }), belief ? percent(belief.chance) : ""),
    open && el("div", { class: "opened" },
      now.told && s.ask && el("blockquote", {}, s.ask),
      careFor(s.see).map((c) => el("p", { class: "care" }, c)),
      symptomButtons(s)));
}

// rowButton opens and closes a row. It shows what was found, else what is likely.
function rowButton(key, title, findings, likely) {
  const family = engine.family(record().find.family);
  return button(
    [el("span", {}, title), findings.length
      ? el("small", { class: "found" }, findings.map((f) => valueOf(f, family)).join(", "))
      : el("small", {}, likely)],
    () => { now.open = now.open === key ? "" : key; now.jump = now.open; draw(); },
    { class: "row", "aria-expanded": String(now.open === key), "data-key": key });
}

// likely is how likely the point is sound.
function likely(point) {
  const b = now.figure && now.figure.points.find((x) => x.id === point.id);
  if (!b || !b.applies) return "";
  return percent(b.states[0] / b.applies) + " " + point.states[0].title;
}
