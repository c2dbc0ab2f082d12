// Help, and keeping the page where a server handed it over.

function drawHelp() {
  const para = (...text) => el("p", {}, ...text);
  replace(byId("content"),
    el("h1", {}, "Help"),
    para("Choose what the model is, then follow Next check: it asks for what changes the price most for the minute it takes. Tap what you find. "
      + "Stop at is the price above which the deal loses on average, all charges counted in; at the careful price it loses in few cases only."),
    para("\u2248 marks a figure from " + plain(quickDraws) + " draws, shown at once. A moment after the last tap it gives way to the one from all "
      + plain(engine.data.draws) + " draws, the same that the command line finds."),
    para("Findings of your own and what the seller says are weighed side by side. Tap a chosen answer again to take it back. "
      + "What cannot be told changes nothing; what a seller does not show tells against it."),
    el("h2", {}, "At the stall"),
    el("ul", {}, cautions.map((c) => el("li", {}, c))),
    el("h2", {}, "The page on the phone"),
    para("One way: make the file at home (lotgauge sheet FAMILY --phone FILE.html), bring it to the phone by cable, mail or memory card, and open it in a browser."),
    para("The other: on the laptop, lotgauge sheet FAMILY --serve hands it over through the home network; the page then offers to save itself."),
    para("Phones differ in whether a file of their own may run scripts and keep anything. Try it at home, without the network. Previews in file managers and mail programs run no scripts."),
    el("h2", {}, "What is kept"),
    para("Finds stay in this browser, in this phone, and nowhere else: the page can send nothing. Clearing the browser's data deletes them. Save all finds before that."),
    el("h2", {}, "Times here"),
    para("Ready after " + ms(times.ready) + ", first figure of a find within " + ms(times.first) + ", last change " + ms(times.last) + ", all draws " + ms(times.full) + "."),
    el("p", { class: "hint" }, dataLine()));
}

const ms = (t) => (t ? Math.round(t) + " ms" : "\u2014");

// offerKeeping offers to keep a page that a server handed over: by a service
// worker where the browser allows one, which it does on this machine and over
// https, and else by saving the file.
function offerKeeping() {
  if (document.body.dataset.origin !== "served" || !navigator.onLine) return null;
  const download = el("a", { class: "button main", href: "lotgauge-field.html", download: "lotgauge-field.html", "data-key": "save the page" }, "Save the page");
  if (!window.isSecureContext || !navigator.serviceWorker) {
    return el("section", { class: "card" }, el("h2", {}, "Keep this page"),
      el("p", {}, "The laptop is needed no more once the page is saved. Open the saved file in this browser, and try it before you go."), download);
  }
  if (navigator.serviceWorker.controller) return null;
  return el("section", { class: "card", id: "keeping" }, el("h2", {}, "Keep this page"),
    el("p", {}, "This browser can keep it under this address, to be opened without the laptop."),
    el("div", { class: "choices" }, button("Keep it here", keepHere, { class: "main" }), download));
}

async function keepHere() {
  const registration = await navigator.serviceWorker.register("keep.js");
  const box = byId("keeping");
  const worker = registration.installing || registration.waiting || registration.active;
  const said = (text) => { if (box) replace(box, el("h2", {}, text)); };
  const look = () => {
    if (worker.state === "activated") said("Kept. This address now opens without the laptop.");
    if (worker.state === "redundant") said("It could not be kept here. Save the page instead.");
  };
  worker.addEventListener("statechange", look);
  look();
}
