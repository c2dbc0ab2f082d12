// The finds, in memory and in the phone's storage. The storage may be missing,
// broken or full: then finds stay in memory, and it is said.

const prefix = "lotgauge.field.";
const findPrefix = prefix + "find.";

const store = {
  finds: new Map(), // by id
  unkept: new Set(), // ids that the storage does not have as they are
  damaged: [], // texts of the storage that cannot be read, with their keys
  why: "", // why the storage does not work, "" where it does

  // open reads what is kept. What cannot be read stays where it is.
  open() {
    try {
      const probe = prefix + "probe";
      localStorage.setItem(probe, "1");
      localStorage.removeItem(probe);
    } catch (e) {
      this.why = reasonOf(e);
    }
    try {
      const keys = [];
      for (let i = 0; i < localStorage.length; i++) keys.push(localStorage.key(i));
      for (const key of keys) if (key.startsWith(findPrefix)) this.take(key, localStorage.getItem(key));
    } catch (e) {
      this.why = reasonOf(e);
    }
  },

  take(key, text) {
    try {
      const record = checked(JSON.parse(text));
      if (findPrefix + record.id !== key) throw new Error("kept under another name");
      this.finds.set(record.id, record);
    } catch (e) {
      this.damaged.push({ key, text: String(text) });
    }
  },

  // keep keeps a find, and those that could not be kept before.
  keep(record) {
    this.finds.set(record.id, record);
    this.unkept.add(record.id);
    this.why = "";
    for (const id of this.unkept) {
      try {
        localStorage.setItem(findPrefix + id, JSON.stringify(this.finds.get(id)));
        this.unkept.delete(id);
      } catch (e) {
        this.why = reasonOf(e);
      }
    }
  },

  remove(id) {
    this.finds.delete(id);
    this.unkept.delete(id);
    try {
      localStorage.removeItem(findPrefix + id);
    } catch (e) {
      this.why = reasonOf(e);
    }
  },

  // all are the finds, the one changed last first.
  all() {
    return Array.from(this.finds.values()).sort((a, b) => b.changed - a.changed);
  },
};

function reasonOf(e) {
  const name = e && e.name;
  if (name === "QuotaExceededError" || name === "NS_ERROR_DOM_QUOTA_REACHED") return "the storage of this browser is full";
  if (name === "SecurityError") return "this browser does not let the page keep anything";
  return "the storage of this browser does not work (" + (e && e.message ? e.message : e) + ")";
}

// checked is a record that the page can work with, or an error.
function checked(record) {
  const find = record && record.find;
  const texts = record && [record.id, find && find.title, find && find.family, find && find.date];
  if (!texts || !texts.every((t) => typeof t === "string") || !Array.isArray(find.findings)) throw new Error("not a find");
  const known = (f) => f && typeof f === "object" && typeof f.by === "string";
  if (!find.findings.every(known)) throw new Error("not a find");
  return { id: record.id, changed: Number(record.changed) || 0, find, passed: Array.isArray(record.passed) ? record.passed.map(String) : [], track: Boolean(record.track), summary: record.summary || null };
}

// Another tab of the page may change finds too.
addEventListener("storage", guarded((event) => {
  if (!event.key || !event.key.startsWith(findPrefix)) return;
  const id = event.key.slice(findPrefix.length);
  if (event.newValue === null) store.finds.delete(id);
  else store.take(event.key, event.newValue);
  redraw();
}));

// Leaving loses what could not be kept.
addEventListener("beforeunload", (event) => {
  if (store.unkept.size) event.preventDefault();
});
