// Which catalogue number it is, by its features or by a number that is read.

function drawModel() {
  const find = record().find, family = engine.family(find.family);
  replace(byId("content"),
    evidenceSwitch(),
    undoLine(),
    el("section", {}, el("h2", {}, "It is"), likeliest(family)),
    family.features.map(featureBlock),
    el("section", {},
      el("h2", {}, now.told ? "The seller names a number" : "A number is on the model"),
      find.variant && el("p", { class: "undo" }, el("span", {}, "The listing says it is " + find.variant + "."),
        button("Doubt it", () => change("number of the listing doubted", (f) => { delete f.variant; }))),
      variantButtons(family)));
}

function likeliest(family) {
  const shown = now.figure ? now.figure.variants.filter((v) => v.chance >= 0.005).sort((a, b) => b.chance - a.chance).slice(0, 5) : [];
  return el("ul", { class: "bars" }, shown.map((v) => {
    const known = family.variants.find((x) => x.id === v.id);
    return el("li", {},
      el("span", {}, el("strong", {}, v.id), " " + known.title + (known.years ? ", " + known.years : "")),
      el("meter", { min: 0, max: 1, value: v.chance, "aria-label": "chance of " + v.id }),
      el("span", { class: "share" }, percent(v.chance)));
  }));
}

function featureBlock(x) {
  return el("section", {},
    el("h2", {}, x.title),
    x.tell && el("p", {}, x.tell),
    el("div", { class: "choices" }, x.options.map((o) =>
      tapped(capital(o.title), x.title, o.title, { feature: x.id, option: o.id, by: byWord() }, { "data-key": x.id + " " + o.id }))));
}

function variantButtons(family) {
  return el("div", { class: "choices" }, family.variants.map((v) =>
    tapped([el("strong", {}, v.id), el("small", {}, v.title)], "number", v.id, { variant: v.id, by: byWord() }, { "data-key": "variant " + v.id })));
}
