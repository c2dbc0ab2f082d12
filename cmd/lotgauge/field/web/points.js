// All points by area, and what a test on the track shows.

function drawPoints() {
  const find = record().find, family = engine.family(find.family);
  const next = now.figure && nextCheck(now.figure);
  replace(byId("content"),
    evidenceSwitch(),
    undoLine(),
    next && el("section", {}, el("h2", {}, "Next"), el("ul", { class: "rows" }, nextRow(next))),
    el("section", {}, el("h2", {}, "On the track"), el("ul", { class: "rows" }, family.symptoms.map((s) => symptomRow(s, find)))),
    family.areas.map((a) => el("section", {},
      el("h2", {}, capital(a.title)),
      el("ul", { class: "rows" }, a.points.filter((p) => applies(p)).map((p) => pointRow(p, find))))));
  const opened = now.open && document.querySelector('[aria-expanded="true"]');
  if (opened && now.jump !== now.open) opened.scrollIntoView({ block: "center" });
  now.jump = now.open;
}

// applies tells whether the model may have the point at all.
const applies = (point) => !now.figure || !now.figure.absent.includes(point.id);

function pointRow(p, find) {
  const key = "point " + p.id, open = now.open === key;
  return el("li", {},
    rowButton(key, p.title, found(find, { point: p.id }), chanceOf("point:" + p.id, p.states[0].id, p.states[0].title)),
    open && el("div", { class: "opened" },
      now.told && p.ask ? el("blockquote", {}, p.ask) : p.how && el("p", {}, p.how),
      careFor(p.mind),
      stateButtons(p),
      el("div", { class: "pass" }, noAnswer(p.title, "point", p.id, byEyes(p)), now.told && notShown(p))));
}

function symptomRow(s, find) {
  const key = "symptom " + s.id, open = now.open === key;
  return el("li", {},
    rowButton(key, s.title, found(find, { symptom: s.id }), chanceOf("symptom:" + s.id, "yes", "likely")),
    open && el("div", { class: "opened" },
      now.told && s.ask && el("blockquote", {}, s.ask),
      careFor(["power"]),
      symptomButtons(s),
      el("div", { class: "pass" }, noAnswer(s.title, "symptom", s.id, byTrack()))));
}

// notShown is the button for what the seller keeps out of sight, which tells
// against it. What one cannot see oneself does not.
const notShown = (p) => button("Not shown", () => say(p.title + ": not shown", { point: p.id, by: "hidden" }), { "data-key": "hidden " + p.id });

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

// chanceOf is how likely an answer to an open check is, in words.
function chanceOf(key, answer, words) {
  const check = now.figure && now.figure.checks.find((c) => c.key === key);
  const found = check && check.answers.find((a) => a.id === answer);
  return found ? percent(found.chance) + " " + words : "";
}
