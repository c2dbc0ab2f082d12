// The next check: what to look at or ask next, and how.

// What a button of the page writes as evidence: one's own eyes, or the seller's
// word. A point that shows only under power is settled on the track.
const byWord = () => (now.told ? "seller" : "hand");
const byTrack = () => (now.told ? "seller" : "track");
const byEyes = (point) => (now.told || point.see.includes("hand") || point.see.includes("photo") ? byWord() : "track");

// evidenceSwitch chooses between the two.
function evidenceSwitch() {
  const choose = (told) => () => {
    if (now.told === told) return;
    now.told = told;
    refigure();
    draw();
  };
  return el("div", { class: "switch", role: "group", "aria-label": "Who says so" },
    button("I look myself", choose(false), { "aria-pressed": String(!now.told) }),
    button("The seller says", choose(true), { "aria-pressed": String(now.told) }));
}

function drawCheck() {
  const f = now.figure, r = record(), next = f && nextCheck(f);
  const then = f ? f.checks.filter((c) => c.pays && c !== next && !(next && c.key === next.key)).slice(0, 4) : [];
  replace(byId("content"),
    evidenceSwitch(),
    undoLine(),
    next ? checkCard(next) : f && enough(f),
    f && rulesBox(f),
    then.length > 0 && el("section", {}, el("h2", {}, "Then"), el("ul", { class: "rows" }, then.map(nextRow))),
    passedBox(r),
    !now.told && trackButton(r),
    el("section", { class: "cautions" }, el("h2", {}, "At the stall"), el("ul", {}, cautions.map((c) => el("li", {}, c)))));
}

// nextCheck is what to check next. The one under the thumb stays there while only
// the number of draws changes.
function nextCheck(f) {
  const same = now.whole && f.next && f.checks.find((c) => c.key === now.next && c.pays);
  const next = same && same.key !== f.next.key ? same : f.next;
  now.next = next ? next.key : "";
  return next;
}

function undoLine() {
  if (!now.last) return null;
  const read = readingsOf((r) => r.title + ": " + r.reading === now.last)[0];
  return el("p", { class: "undo" }, el("span", {}, now.last + (read ? takenFor(read) : "")), button("Take back", undo));
}

// readingsOf are the readings of a find that are asked for, as the engine took them.
const readingsOf = (which) => (now.figure ? now.figure.readings.filter(which) : []);

// takenFor says what a reading was taken for, and questions one that is a slip.
const takenFor = (r) => (r.taken && ": " + r.taken) + (r.far ? ". Far from what any state reads: is that what it reads?" : "");

// trackButton says whether something can be tried here.
function trackButton(r) {
  return el("section", {}, button("A test track is here", () => change(r.track ? "no test track" : "a test track", (find, rec) => { rec.track = !rec.track; }),
    { "aria-pressed": String(r.track), class: "wide" }));
}

// enough says why there is no next check.
function enough(f) {
  const [title, text] = {
    "no-longer-pays": [now.told ? "Enough asked" : "Enough looked at", "No further " + (now.told ? "question" : "check") + " is worth the minutes it takes. Decide by the two prices above."],
    "all-seen": [now.told ? "All asked" : "All looked at", "Nothing is left to " + (now.told ? "ask" : "look at") + " here. Decide by the two prices above."],
    "deal-broken": ["Look no further", "What was found rules the deal out."],
    "not-priced": ["No figure", "No price is known for: " + f.missing.map((m) => m.title).join(", ") + ". Add it to prices.csv at home and make the page anew."],
  }[f.outlook] || ["Decide", "There is no further check."];
  return el("section", { class: "card" }, el("h2", {}, title), el("p", {}, text));
}

// passedBox brings back what was passed over.
function passedBox(r) {
  if (!r.passed.length) return null;
  return el("section", {}, button("Offer the " + r.passed.length + " passed over again",
    () => change("passed over: offered again", (find, rec) => { rec.passed = []; }), { class: "wide" }));
}

function rulesBox(f) {
  const more = f.verdict === "walk-away" ? f.reasons.slice(1) : [];
  const rules = f.rules.filter((x) => !f.reasons.includes(x.text));
  if (!rules.length && !more.length) return null;
  return el("section", {}, more.map((m) => el("p", { class: "rule stop" }, m)),
    rules.map((x) => el("p", { class: "rule " + x.level }, x.text)));
}

const kindTab = (c) => (c.kind === "point" || c.kind === "symptom" ? "points" : "model");

function nextRow(c) {
  return el("li", {}, button(
    [el("span", {}, c.title), el("small", {}, worthOf(c))],
    () => { now.open = c.kind + " " + c.id; go("find", at.id, kindTab(c)); },
    { class: "row", "data-key": "next " + c.key }));
}

const worthOf = (c) => "worth " + money(c.worth, now.figure.currency) + ", " + (c.minutes > 0 ? plain(String(c.minutes)) + "\u00a0min" : "no time");

// checkCard is the next check with the buttons to answer it.
function checkCard(c) {
  return el("section", { class: "card", "data-check": c.key },
    el("p", { class: "worth" }, capital(worthOf(c))),
    el("h2", {}, c.title),
    c.with && el("p", {}, "Pays together with: " + c.with + "."),
    now.told && c.ask ? el("blockquote", {}, c.ask) : c.how && el("p", {}, c.how),
    careFor(c.mind),
    el("div", { class: "choices" }, c.answers.map((a) => button(
      [c.kind === "variant" ? a.id : capital(a.title), c.kind === "variant" && el("small", {}, a.title), a.stop && el("small", {}, "ends the deal")],
      () => give(c, a.id, a.title), { "data-key": c.key + " " + a.id }))),
    c.measure && readingField(c.measure, c.id, (reading) => give(c, reading, reading)),
    el("div", { class: "pass" },
      button("Cannot tell", () => change(c.title + ": passed over", (find, r) => r.passed.push(passedKey(c.key)))),
      c.kind === "point" && now.told && button("Not shown", () => say(c.title + ": not shown", { point: c.id, by: "hidden" }))));
}

// passedKey is how the page keeps that a check was passed over: looking oneself
// and asking the seller are two things.
const passedKey = (key) => (now.told ? "told " : "own ") + key;

// noAnswer is the button for no answer to what a row is about: it takes back what
// was said, and passes the check over.
function noAnswer(title, kind, id, by) {
  const thing = { [kind]: id }, key = passedKey(kind + ":" + id);
  const chosen = record().passed.includes(key) && !saidOf(record().find, thing, by);
  return button(now.told ? "No answer" : "Cannot tell", () => change(title + ": no answer", (find, r) => {
    forget(find, thing, by);
    if (!r.passed.includes(key)) r.passed.push(key);
  }), { "aria-pressed": String(chosen), "data-key": "no answer " + id });
}

// give answers a check: the engine says what finding that comes to.
function give(c, answer, title) {
  const finding = engine.call("answer", { ...engine.question(record()), key: c.key, answer });
  say(c.title + ": " + title, finding);
}

// say notes a finding.
function say(said, finding) {
  change(said, (find) => note(find, finding));
}

// tapped is a button for a finding, which taps on and off again.
function tapped(label, about, value, finding, attributes) {
  const thing = thingOf(finding), said = saidOf(record().find, thing, finding.by);
  const same = (key) => (said[key] || "") === (finding[key] || "");
  const chosen = Boolean(said) && ["state", "option", "variant", "present"].every(same);
  return button(label, () => (chosen
    ? change(about + ": taken back", (find) => forget(find, thing, finding.by))
    : say(about + ": " + value, finding)),
  { "aria-pressed": String(chosen), ...attributes });
}

// stateButtons are the states of a point, to tap; and a field for a reading
// where something can be measured.
function stateButtons(point) {
  const by = byEyes(point);
  return [
    el("div", { class: "choices" }, point.states.map((s, i) =>
      tapped(capital(s.title), point.title, s.title, { point: point.id, state: s.id, by },
        { class: i === 0 ? "sound" : "fault", "data-key": point.id + " " + s.id }))),
    readingsOf((r) => r.point === point.id).map((r) => el("p", { class: r.far ? "care" : "hint" }, r.reading + takenFor(r))),
    point.measure && readingField(point.measure, point.id, (reading) => say(point.title + ": " + reading, { point: point.id, reading, by })),
  ];
}

function symptomButtons(s) {
  const by = byTrack();
  return el("div", { class: "choices" },
    tapped("No", s.title, "no", { symptom: s.id, present: false, by }, { class: "sound", "data-key": s.id + " No" }),
    tapped("Yes", s.title, "yes", { symptom: s.id, present: true, by }, { class: "fault", "data-key": s.id + " Yes" }));
}

function readingField(measure, id, act) {
  const field = el("input", { type: "text", inputmode: "decimal", id: "reading-" + id, autocomplete: "off", enterkeyhint: "done" });
  const enter = () => {
    const number = decimal(field.value);
    refuse(field, !number && "Not taken: expected a number such as 13.7, in " + measure.unit + ".");
    if (number) act(number + " " + measure.unit);
  };
  onEnter(field, enter);
  return el("div", { class: "reading" },
    el("label", { for: field.id }, "Or measure: " + measure.what + (measure.right && "; right: " + measure.right)),
    field, el("span", {}, measure.unit), button("Enter", enter, { "data-key": "enter " + id }), refusal(field));
}

// decimal is a number as the files want it, from what a phone's keyboard gives,
// or "" where it is none.
function decimal(text) {
  const t = text.trim().replace(",", ".");
  return /^\d{1,9}(\.\d{1,4})?$/.test(t) ? t : "";
}
