"use strict";
// Elements. Whatever is shown comes in as text; nothing makes markup of it.

const byId = (id) => document.getElementById(id);

// el makes an element. Attributes that are null, undefined or false are left
// out, "on..." are listeners, and children are elements or text.
function el(tag, attributes, ...children) {
  const node = document.createElement(tag);
  node.append(...contents(children));
  for (const [key, value] of Object.entries(attributes || {})) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) node.addEventListener(key.slice(2), guarded(value));
    else if (key === "value") node.value = value;
    else node.setAttribute(key, value === true ? "" : value);
  }
  return node;
}

// contents are children without those left out, their text cleaned line by line.
function contents(children) {
  const clean = (c) => (typeof c === "string" ? c.split("\n").map((line) => engine.clean(line)).join("\n") : c);
  return children.flat(9).filter((c) => c !== null && c !== undefined && c !== false && c !== "").map(clean);
}

// theirs is text that somebody wrote, in one line: whichever way it is written, it
// turns nothing around it.
const theirs = (text, attributes) => el("bdi", attributes, engine.clean(text));

// onEnter acts on the Enter key in a field.
function onEnter(field, act) {
  field.addEventListener("keydown", guarded((event) => {
    if (event.key === "Enter" && !event.isComposing) act();
  }));
}

// refusal is the place beside a field where refuse says why its text is not taken.
const refusal = (field) => el("p", { class: "refusal", id: "refusal-" + field.id, role: "alert" });

function refuse(field, why) {
  const said = byId("refusal-" + field.id);
  field.setAttribute("aria-invalid", String(Boolean(why)));
  field.setAttribute("aria-describedby", said.id);
  replace(said, why && el("span", {}, why));
}

// button is one for the thumb. The key keeps the focus over a redrawing.
function button(label, act, attributes) {
  const click = (event) => {
    touched = event.currentTarget;
    touchedAt = performance.now();
    return act(event);
  };
  return el("button", { type: "button", onclick: click, "data-key": typeof label === "string" ? label : null, ...attributes }, label);
}

// touched is the button tapped last: not every browser gives it the focus.
let touched = null;
let touchedAt = 0; // when, in milliseconds since the page was opened

// guarded makes a failure of a listener visible.
function guarded(f) {
  return (event) => {
    try {
      const later = f(event);
      if (later instanceof Promise) later.catch(failure);
    } catch (e) {
      failure(e);
    }
  };
}

// replace puts new children into an element. What was tapped stays where it is
// on the screen, whatever comes in above it, and the focus where it was.
function replace(node, ...children) {
  const held = [touched, document.activeElement].find((n) => n && n !== node && node.contains(n) && n.hasAttribute("data-key"));
  const focused = held === document.activeElement, key = held && held.getAttribute("data-key");
  const height = held && held.getBoundingClientRect().top;
  node.replaceChildren(...contents(children));
  const again = held && Array.from(node.querySelectorAll("[data-key]")).find((n) => n.getAttribute("data-key") === key);
  if (!again) return;
  if (held === touched) touched = again;
  if (focused) again.focus({ preventScroll: true });
  const by = again.getBoundingClientRect().top - height;
  if (node.scrollHeight > node.clientHeight) node.scrollBy(0, by);
  else window.scrollBy(0, by);
}

// failure shows what went wrong, on top of whatever there is.
function failure(e) {
  const box = byId("failure");
  const lines = e && e.lines ? e.lines : [];
  if (!box) return;
  box.hidden = false;
  replace(box,
    el("strong", {}, "Something failed: "), e && e.message ? e.message : String(e),
    lines.map((l) => el("p", {}, l)),
    el("p", {}, "Finds that were kept are still kept."),
    button("Close", () => { box.hidden = true; }));
}

addEventListener("error", (event) => failure(event.error || event.message));
addEventListener("unhandledrejection", (event) => failure(event.reason));
