// The next check: what to look at or ask next, and how.

// told is the evidence that buttons write: one's own eyes, or the seller's word.
const byHand = () => (now.told ? "seller" : "hand");
const byTrack = () => (now.told ? "seller" : "track");

// evidenceSwitch chooses between the two.
function evidenceSwitch() {
  const choose = (told) => () => {
    now.told = told;
    draw();
  };
  return el("div", { class: "switch", role: "group", "aria-label": "Who says so" },
    button("I look myself", choose(false), { "aria-pressed": String(!now.told) }),
    button("The seller says", choose(true), { "aria-pressed": String(now.told) }));
}

function drawCheck() {
  const f = now.figure, r = record();
  const next = f ? nextChecks(f, r) : [];
  replace(byId("content"),
    evidenceSwitch(),
    undoLine(),
    f && f.missing.length > 0 && missingBox(f),
    next.length ? checkCard(next[0]) : f && f.worth && enough(r),
    f && f.rules && rulesBox(f),
    next.length > 1 && el("section", {}, el("h2", {}, "Then"), el("ul", { class: "rows" }, next.slice(1, 5).map(nextRow))),
    el("section", { class: "cautions" }, el("h2", {}, "At the stall"), el("ul", {}, cautions.map((c) => el("li", {}, c)))));
}

// nextChecks are the questions that pay for the time they take, that can be
// answered here and were not passed over, the one that pays most first. The one
// under the thumb stays there while only the number of draws changes.
function nextChecks(f, r) {
  const here = now.told ? ["seller"] : ["hand", "track"];
  const list = (f.questions || [])
    .filter((q) => q.kind !== "pair" && q.gain > 0 && !r.passed.includes(keyOf(q)))
    .filter((q) => q.kind === "variant" || q.see.some((s) => here.includes(s)))
    .sort((a, b) => b.gain - a.gain);
  const before = list.findIndex((q) => keyOf(q) === now.next);
  if (now.whole && before > 0) list.unshift(...list.splice(before, 1));
  now.next = list.length ? keyOf(list[0]) : "";
  return list;
}

const keyOf = (q) => q.kind + " " + q.id;

function undoLine() {
  if (!now.last) return null;
  return el("p", { class: "undo" }, el("span", {}, now.last), button("Take back", undo));
}

function enough(r) {
  return el("section", { class: "card" },
    el("h2", {}, now.told ? "Enough asked" : "Enough looked at"),
    el("p", {}, "No further " + (now.told ? "question" : "check") + " is worth the minutes it takes. Decide by the two prices above."),
    r.passed.length > 0 && button("Show the " + r.passed.length + " passed over again", () => change("passed over: shown again", (find, rec) => { rec.passed = []; })));
}

function missingBox(f) {
  return el("section", { class: "notice bad" }, el("strong", {}, "No price is known for: "),
    f.missing.map((m) => m.title).join(", "), ". Add it to prices.csv at home and make the page anew.");
}

function rulesBox(f) {
  const more = f.verdict === "walk-away" ? f.reasons.slice(1) : [];
  const rules = f.rules.filter((x) => !f.reasons || !f.reasons.includes(x.text));
  if (!rules.length && !more.length) return null;
  return el("section", {}, more.map((m) => el("p", { class: "rule stop" }, m)),
    rules.map((x) => el("p", { class: "rule " + x.level }, x.text)));
}

function nextRow(q) {
  return el("li", {}, button(
    [el("span", {}, q.title), el("small", {}, "worth " + money(q.worth, now.figure.currency) + ", " + duration(q.minutes))],
    () => { now.open = keyOf(q); go("find", at.id, q.kind === "variant" ? "model" : "points"); },
    { class: "row", "data-key": "next " + q.id }));
}

const duration = (minutes) => (minutes > 0 ? plain(String(minutes)) + " min" : "no time");

// checkCard is the next check with the buttons to answer it.
function checkCard(q) {
  const family = engine.family(record().find.family);
  return el("section", { class: "card", "data-check": keyOf(q) },
    el("p", { class: "worth" }, "Next check \u00b7 worth " + money(q.worth, now.figure.currency) + " \u00b7 " + duration(q.minutes)),
    el("h2", {}, q.title),
    now.told && q.ask ? el("blockquote", {}, q.ask) : q.how && el("p", {}, q.how),
    careFor(q.see).map((c) => el("p", { class: "care" }, c)),
    answers(q, family),
    el("div", { class: "pass" },
      button("Cannot tell", () => pass(q)),
      q.kind === "point" && now.told && button("Not shown", () => answer(q.title + ": not shown", { point: q.id }, { by: "hidden" }))));
}

const pass = (q) => change(q.title + ": passed over", (find, r) => r.passed.push(keyOf(q)));

function answer(said, thing, finding) {
  change(said, (find) => note(find, thing, finding));
}

function answers(q, family) {
  switch (q.kind) {
    case "point": return stateButtons(family.points.get(q.id));
    case "symptom": return symptomButtons(q);
    default: return variantButtons(family);
  }
}

// stateButtons are the states of a point, to tap; and a field for a reading
// where something can be measured.
function stateButtons(point) {
  const find = record().find, by = byHand(), thing = { point: point.id };
  const said = saidOf(find, thing, by);
  return [
    el("div", { class: "choices" }, point.states.map((s, i) => {
      const chosen = Boolean(said && said.state === s.id);
      return button(capital(s.title), () => (chosen
        ? change(point.title + ": taken back", (f) => forget(f, thing, by))
        : answer(point.title + ": " + s.title, thing, { state: s.id, by })),
      { "aria-pressed": String(chosen), class: i === 0 ? "sound" : "fault", "data-key": point.id + " " + s.id });
    })),
    point.measure && readingField(point, said),
  ];
}

function readingField(point, said) {
  const unit = point.measure.unit;
  const field = el("input", {
    type: "text", inputmode: "decimal", id: "reading-" + point.id, autocomplete: "off",
    value: said && said.reading ? said.reading.replace(unit, "").trim() : "",
  });
  const enter = () => {
    const number = decimal(field.value);
    if (number) answer(point.title + ": " + number + " " + unit, { point: point.id }, { reading: number + " " + unit, by: byHand() });
  };
  return el("div", { class: "reading" },
    el("label", { for: field.id }, "or measure: " + point.measure.what),
    field, el("span", {}, unit), button("Enter", enter, { "data-key": "enter " + point.id }));
}

// decimal is a number as the files want it, from what a phone's keyboard gives,
// or "" where it is none.
function decimal(text) {
  const t = text.trim().replace(",", ".");
  return /^\d{1,9}(\.\d{1,4})?$/.test(t) ? t : "";
}

function symptomButtons(s) {
  const find = record().find, by = byTrack(), thing = { symptom: s.id };
  const said = saidOf(find, thing, by);
  const choice = (title, present) => {
    const chosen = Boolean(said && Boolean(said.present) === present);
    return button(title, () => (chosen
      ? change(s.title + ": taken back", (f) => forget(f, thing, by))
      : answer(s.title + ": " + title.toLowerCase(), thing, { present, by })),
    { "aria-pressed": String(chosen), class: present ? "fault" : "sound", "data-key": s.id + " " + title });
  };
  return el("div", { class: "choices" }, choice("No", false), choice("Yes", true));
}
