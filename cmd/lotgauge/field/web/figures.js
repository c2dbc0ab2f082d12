// The head of a find: stop and careful price, and what they mean.

function drawHead() {
  const head = byId("head");
  if (at.screen !== "find") {
    head.className = "";
    return replace(head, at.screen === "finds" ? null : el("div", { class: "bar" }, button("\u2039 Finds", () => go("finds"), { class: "back" })));
  }
  const r = record(), f = now.figure;
  head.className = "figures " + (!f ? "none" : unasked(f, r.find) ? "unasked" : f.verdict);
  replace(head,
    el("div", { class: "bar" },
      button("\u2039 Finds", () => go("finds"), { class: "back" }),
      theirs(r.find.title, { class: "title" })),
    now.error ? errorBox(now.error) : figureBox(f, r.find));
}

function errorBox(e) {
  return el("div", { class: "verdict", role: "status" },
    el("strong", {}, "No figure. "), capital(e.message), (e.lines || []).map((l) => el("p", {}, l)),
    now.undo.length > 0 && button("Take back the last", undo));
}

function figureBox(f, find) {
  return [
    el("div", { class: "prices", role: "status", "aria-live": "polite", "data-draws": f.draws },
      price("Stop at", f.stop, now.before && now.before.stop, f, "main"),
      price("Careful", f.careful, now.before && now.before.careful, f, "side"),
      boughtBy(find)),
    unasked(f, find)
      ? button("What is asked? Fill it in", () => go("find", at.id, "deal"), { class: "verdict ask" })
      : el("p", { class: "verdict" }, headline(f, find)),
  ];
}

// boughtBy is the sheet that the figures are bought by; a tap leads to the others.
function boughtBy(find) {
  const sheet = engine.sheet(find);
  return button([el("span", {}, sheet.title.split(",")[0] + ", " + sheet.currency)],
    () => { now.open = "sheets"; go("find", at.id, "deal"); },
    { class: "sheet", "data-key": "bought by", "aria-label": "Bought by " + sheet.title + ", " + sheet.currency + ": change it" });
}

// unasked tells whether only the price asked is missing to say more.
const unasked = (f, find) => !find.ask && (f.verdict === "buy" || f.verdict === "marginal");

// price is one of the two figures. While it is from few draws it is marked as
// rough; what the last change did to it stands beside.
function price(title, bid, before, f, kind) {
  const none = f.worth ? "none" : "\u2014";
  const rough = bid && !now.whole && el("small", { class: "rough" }, "\u2248\u00a0");
  return el("div", { class: "price " + kind },
    el("span", { class: "name" }, title),
    el("span", { class: "amount" }, rough, bid ? plain(bid.bid) : none, bid && el("small", {}, "\u00a0" + f.bid_currency)),
    el("span", { class: "moved" }, bid && before ? moved(Number(bid.bid) - Number(before.bid)) : "\u00a0"));
}

function moved(by) {
  if (!by) return "unmoved";
  return (by > 0 ? "\u25b2\u2009" : "\u25bc\u2009") + plain(String(Math.round(Math.abs(by) * 100) / 100));
}
