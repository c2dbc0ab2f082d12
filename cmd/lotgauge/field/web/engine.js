// The engine: one on the page for figures at once, one in a worker for the full
// number of draws.

// How many draws the figures at once are of. From so many the expected worth is
// off by one or two parts in a hundred (its standard error over the demonstration
// listings); the page says which it shows.
const quickDraws = 1200;

const engine = {
  call: null, // (operation, argument) => value
  data: null, // what the page brought: see gather.go
  worker: null, // null: not started, false: there is none
  waiting: new Map(), // what the worker is asked for, by id
  asked: 0,

  async start() {
    const packed = { data: unpack(byId("data").textContent), program: unpack(byId("engine").textContent) };
    const [data, sorted] = await Promise.all([bytesOf(packed.data), bytesOf(packed.program)]);
    const program = await WebAssembly.compile(joined(sorted));
    const text = new TextDecoder().decode(data);
    this.data = JSON.parse(text);
    this.text = text;
    this.program = program;
    this.call = await hosted(program, text);
  },

  // question is what there is to ask of a record, from few draws.
  question(record) {
    const mode = now.told ? "told " : "own ";
    return {
      find: record.find,
      draws: Math.min(quickDraws, this.data.draws),
      here: now.told ? ["seller"] : record.track ? ["hand", "track"] : ["hand"],
      passed: record.passed.filter((p) => p.startsWith(mode)).map((p) => p.slice(mode.length)),
    };
  },

  // quick figures at once.
  quick(record) {
    return this.call("figure", this.question(record));
  },

  // full figures with all draws: in the worker where there is one, else here.
  full(record) {
    const argument = { ...this.question(record), draws: this.data.draws };
    return this.helper().then((worker) => {
      if (!worker) return this.call("figure", argument);
      return new Promise((resolve, reject) => {
        const id = ++this.asked;
        this.waiting.set(id, { resolve, reject });
        worker.postMessage({ id, operation: "figure", argument });
      });
    });
  },

  // helper is the worker, started when it is first needed, or false.
  helper() {
    if (this.worker === null) {
      this.worker = new Promise((resolve) => {
        try {
          this.hire(resolve);
        } catch (e) {
          resolve(false);
        }
      });
    }
    return this.worker;
  },

  hire(resolve) {
    const script = byId("go").textContent + byId("host").textContent + "\nwork();\n";
    const url = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
    const worker = new Worker(url);
    const dismiss = () => {
      resolve(false);
      this.worker = Promise.resolve(false);
      for (const w of this.waiting.values()) w.reject(new Error("the worker stopped"));
      this.waiting.clear();
    };
    worker.onerror = (event) => {
      event.preventDefault();
      dismiss();
    };
    worker.onmessage = (event) => {
      const m = event.data;
      if (m.ready) resolve(worker);
      else if (m.id === undefined) dismiss();
      else this.answered(m);
    };
    worker.postMessage({ program: this.program, data: this.text });
  },

  answered(m) {
    const w = this.waiting.get(m.id);
    this.waiting.delete(m.id);
    if (!w) return;
    if (m.error === undefined) w.resolve(m.ok);
    else w.reject(Object.assign(new Error(m.error), { lines: m.lines }));
  },

  // clean is a text as a terminal shows it: controls, and what turns the writing
  // around, are spelt out. The engine knows which those are; ASCII, Latin letters
  // and the page's own signs need no asking. Without an engine nothing is cleaned.
  cleaned: new Map(),
  clean(text) {
    if (!this.call || /^[ -~\u00a0-\u02ff\u2010-\u2027\u202f-\u205e\u2190-\u2bff]*$/.test(text)) return text;
    if (this.cleaned.size > 500) this.cleaned.clear();
    if (!this.cleaned.has(text)) this.cleaned.set(text, this.told("clean", text));
    return this.cleaned.get(text);
  },

  // told is a call whose failure is told elsewhere.
  told(operation, text) {
    try {
      return this.call(operation, text);
    } catch (e) {
      return text;
    }
  },

  // family is what there is to look at, read once.
  families: new Map(),
  family(id) {
    if (!this.families.has(id)) {
      const f = this.call("family", id);
      f.points = new Map(f.areas.flatMap((a) => a.points).map((p) => [p.id, p]));
      this.families.set(id, f);
    }
    return this.families.get(id);
  },

  has(id) {
    return this.data.families.some((f) => f.id === id);
  },

  sheet(find) {
    const id = find.buy || this.data.buy;
    return this.data.sheets.find((s) => s.id === id) || { id, title: id, currency: this.data.currency };
  },
};
