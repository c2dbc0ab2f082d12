// The deal: what is asked, how it is sold, by which charges.

function drawDeal() {
  const find = record().find, sheet = engine.sheet(find);
  replace(byId("content"),
    el("section", { class: "asked" },
      el("label", { for: "ask" }, "Asked, " + sheet.currency),
      amountField("ask", number(find.ask), (v) => (f) => setAmount(f, "ask", v)),
      el("div", { id: "sale" }, saleBox(find))),
    !find.fixed && hammerFields(find, sheet),
    el("section", { id: "sheets" }, el("h2", {}, "Bought by"),
      el("div", { class: "choices" }, engine.data.sheets.map((s) =>
        button([s.title, el("small", {}, s.currency)], () => change("bought by " + s.title, (f) => setSheet(f, s)),
          { "aria-pressed": String(s.id === sheet.id), "data-key": "sheet " + s.id })))),
    el("div", { id: "bill" }, bill()),
    el("section", { class: "fields" },
      el("label", { for: "title" }, "Title"), textField("title", find.title),
      el("label", { for: "date" }, "Prices and rates of"), dateField(find)));
  if (now.open === "sheets") byId("sheets").scrollIntoView({ block: "center" });
  if (now.open === "sheets") now.open = "";
}

const number = (amount) => (amount ? amount.split(" ")[0] : "");

// saleBox is how the find is sold, as it counts and goes into the listing file. A
// fixed price that nobody has named is none there: until then it is an auction.
function saleBox(find) {
  const fixed = find.fixed && Boolean(find.ask);
  return [
    el("div", { class: "switch", role: "group", "aria-label": "How it is sold" },
      kind("Fixed price", true, fixed), kind("Auction", false, !fixed)),
    find.fixed && !fixed && el("p", { class: "care", role: "status" },
      "A fixed price needs a price: fill in what is asked. Until then the find counts as an auction, in the listing file too."),
  ];
}

function kind(title, fixed, chosen) {
  return button(title, () => change(title.toLowerCase(), (f) => { f.fixed = fixed; }), { "aria-pressed": String(chosen) });
}

// setSheet changes the charges; amounts keep their number and get the currency.
function setSheet(find, sheet) {
  find.buy = sheet.id;
  const as = (amount) => number(amount) + " " + sheet.currency;
  if (find.ask) find.ask = as(find.ask);
  if (find.hammer) find.hammer = { low: as(find.hammer.low), high: as(find.hammer.high) };
}

function setAmount(find, key, value) {
  if (value) find[key] = value + " " + engine.sheet(find).currency;
  else delete find[key];
}

// amountField is a number to type. What is no amount is not taken, and it is said
// what would be.
function amountField(id, value, act) {
  const field = el("input", { id, type: "text", inputmode: "decimal", autocomplete: "off", enterkeyhint: "done", value, "data-key": id });
  field.addEventListener("input", guarded(() => {
    const v = decimal(field.value);
    const wrong = field.value.trim() !== "" && !v;
    refuse(field, wrong && "Not taken: expected an amount such as 45 or 42.50.");
    if (wrong) return;
    change("asked: " + (v || "nothing"), act(v), { typed: id });
    if (byId("bill")) replace(byId("bill"), bill());
    if (byId("sale")) replace(byId("sale"), saleBox(record().find));
  }));
  onEnter(field, () => field.blur());
  return [field, refusal(field)];
}

function hammerFields(find, sheet) {
  const ends = { low: number(find.hammer && find.hammer.low), high: number(find.hammer && find.hammer.high) };
  const field = (end) => amountField("hammer-" + end, ends[end], (v) => (f) => {
    ends[end] = v;
    if (Number(ends.low) > 0 && Number(ends.high) > Number(ends.low)) {
      f.hammer = { low: ends.low + " " + sheet.currency, high: ends.high + " " + sheet.currency };
    } else delete f.hammer;
  });
  return el("section", { class: "pair" },
    el("h2", {}, "Where bidding should end"),
    el("p", {}, "In one case of ten below, in one of ten above. Without it, around the stop price."),
    el("label", { for: "hammer-low" }, "From"), field("low"), el("label", { for: "hammer-high" }, "to"), field("high"));
}

function textField(id, value) {
  const field = el("input", { id, type: "text", value, maxlength: 200, autocomplete: "off", "data-key": id });
  field.addEventListener("change", guarded(() => {
    const text = field.value.trim();
    if (text) change("title changed", (f) => { f.title = text; }, { typed: id });
    else field.value = record().find.title;
  }));
  onEnter(field, () => field.blur());
  return field;
}

function dateField(find) {
  const field = el("input", { id: "date", type: "date", value: find.date, required: true, "data-key": "date" });
  field.addEventListener("change", guarded(() => {
    if (field.value) change("day changed", (f) => { f.date = field.value; });
  }));
  const old = engine.data.last_rate && find.date === engine.data.last_rate && find.date < today();
  return [field, old && el("p", { class: "hint" }, "The rates in this page end on this day and are too old for today. Make the page anew at home.")];
}

// bill is what the price asked comes to in the end.
function bill() {
  const f = now.figure;
  if (!f) return null;
  const rows = [];
  if (f.ask) {
    for (const l of f.ask.lines.filter((x) => !x.memo && Number(x.amount) !== 0)) rows.push([l.title, money(l.amount, f.bid_currency)]);
    rows.push(["In the end", money(f.ask.landed, f.currency)]);
    if (f.ask.loss !== null) rows.push(["Loses money in", percent(f.ask.loss) + " of cases"]);
  }
  if (f.worth) rows.push(["Worth to you", money(f.worth.mean, f.currency) + " (" + plain(Math.round(f.worth.p10)) + " to " + plain(Math.round(f.worth.p90)) + ")"]);
  if (f.stop) rows.push(["Stop price in the end", money(f.stop.landed, f.currency)]);
  return el("section", {}, el("h2", {}, "What it comes to"),
    el("table", {}, rows.map(([a, b]) => el("tr", {}, el("th", { scope: "row" }, a), el("td", {}, b)))),
    el("p", { class: "hint" }, "From " + plain(f.draws) + " draws. Careful: loses money in at most " + percent(f.tolerance) + " of cases. "
      + "An estimate, not an appraisal in law; charges are your own entries."),
    (f.warnings || []).map((w) => el("p", { class: "hint" }, capital(w) + ".")));
}
