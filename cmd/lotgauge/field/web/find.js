// What may be done to a find. A finding replaces earlier ones about the same
// thing by the same evidence; other evidence about it stays and is weighed.

// newRecord is a find of a family bought by a sheet, as the page keeps it.
function newRecord(family, buy) {
  const now = new Date();
  const clock = String(now.getHours()).padStart(2, "0") + ":" + String(now.getMinutes()).padStart(2, "0");
  const entry = engine.data.families.find((f) => f.id === family);
  const before = store.all()[0];
  return {
    id: newID(), changed: Date.now(), passed: [], track: Boolean(before && before.track), summary: null,
    find: {
      title: distinct(entry.title.split(",")[0] + ", " + clock), family, buy, fixed: true, findings: [],
      date: engine.call("start", { family, buy, today: today() }),
    },
  };
}

// distinct is a title that no find has yet: those begun in the same minute are
// numbered.
function distinct(title) {
  const titles = new Set(store.all().map((r) => r.find.title));
  let n = 1, numbered = title;
  while (titles.has(numbered)) numbered = title + " " + ++n;
  return numbered;
}

const newID = () => Date.now().toString(36) + Math.random().toString(36).slice(2, 8);

const subjects = ["point", "feature", "symptom", "variant"];

// about tells whether a finding is about a thing: {point: id}, {feature: id},
// {symptom: id} or {variant: any}.
function about(finding, thing) {
  const kind = subjects.find((k) => k in thing);
  return kind === "variant" ? Boolean(finding.variant) : finding[kind] === thing[kind];
}

const found = (find, thing) => find.findings.filter((f) => about(f, thing));

// note puts a finding in the place of those about the same by the same evidence.
function note(find, finding) {
  const thing = thingOf(finding), same = (f) => about(f, thing) && evidence(f.by) === evidence(finding.by);
  find.findings = find.findings.filter((f) => !same(f));
  find.findings.push(finding);
}

// thingOf is what a finding is about.
function thingOf(finding) {
  const kind = subjects.find((k) => finding[k]);
  return { [kind]: kind === "variant" ? true : finding[kind] };
}

// Hand and track are both one's own eyes; what is not shown is the seller's doing.
function evidence(by) {
  if (by === "hand" || by === "track") return "own";
  return by === "hidden" ? "seller" : by;
}

// forget takes back what oneself or the seller said of a thing.
function forget(find, thing, by) {
  find.findings = find.findings.filter((f) => !(about(f, thing) && evidence(f.by) === evidence(by)));
}

// saidOf is the finding about a thing that a button of the page would replace.
const saidOf = (find, thing, by) => found(find, thing).find((f) => evidence(f.by) === evidence(by));

// The words of a finding: what was found, and about what.
function valueOf(f, family) {
  if (f.by === "hidden") return "not shown";
  if (f.symptom) return f.present ? "yes" : "no";
  if (f.reading) return f.reading;
  if (f.option) return f.option.replaceAll("-", " ");
  if (f.variant) return f.variant;
  const point = family && family.points.get(f.point);
  const state = point && point.states.find((s) => s.id === f.state);
  return state ? state.title : f.state;
}

function subjectOf(f, family) {
  const named = (list, id) => ((list || []).find((x) => x.id === id) || { title: id }).title;
  if (f.symptom) return named(family && family.symptoms, f.symptom);
  if (f.feature) return named(family && family.features, f.feature);
  if (f.variant) return "Catalogue number";
  const point = family && family.points.get(f.point);
  return point ? point.title : f.point;
}

// fileName is one under which a find may be saved anywhere.
function fileName(find, ending) {
  const stem = find.title.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 40).replace(/-+$/, "");
  return (stem || "find") + "-" + find.date + ending;
}
