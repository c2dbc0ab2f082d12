// Numbers and sentences.

// plain is an amount without the zeros that nobody reads: "96", "34.17".
function plain(amount) {
  const [whole, cents] = String(amount).split(".");
  const grouped = whole.replace(/(\d)(?=(\d{3})+$)/g, "$1\u202f");
  return cents && /[1-9]/.test(cents) ? grouped + "." + cents : grouped;
}

const money = (amount, currency) => plain(amount) + "\u00a0" + currency;

function percent(share) {
  if (share > 0 && share < 0.01) return "under 1%";
  if (share < 1 && share > 0.99) return "over 99%";
  return Math.round(share * 100) + "%";
}

const capital = (s) => s.slice(0, 1).toUpperCase() + s.slice(1);

// today is the day where the phone is, as files have it.
function today() {
  const d = new Date();
  const two = (n) => String(n).padStart(2, "0");
  return d.getFullYear() + "-" + two(d.getMonth() + 1) + "-" + two(d.getDate());
}

const ways = { hand: "seen in the hand", track: "tried on track", photo: "seen in a picture", seller: "says the seller", hidden: "not shown" };

// The headline over the figures: what it means for the price asked.
function headline(figure, find) {
  const asked = find.ask ? plain(find.ask.split(" ")[0]) : "";
  switch (figure.verdict) {
    case "unpriceable": return "No figure: a price is missing";
    case "walk-away": return figure.reasons[0] || "Walk away";
    case "too-dear": return "Asked " + asked + ": over the stop price";
    case "marginal": return "Asked " + asked + ": over the careful price";
  }
  return "Asked " + asked + ": within the careful price";
}

// What to mind before a check, by what the engine says is to be minded of it.
const careOf = {
  opening: "Nothing is opened without the seller's leave.",
  power: "Power only from your own supply: tested, isolated, within the model's rating. Not from the old transformer on the table, and no battery held to it unless its voltage suits: a decoder or a coil may not stand it.",
  solvent: "No solvent, oil or eraser without the owner's leave, and none near lettering: it takes off print and crazes plastic.",
};

// careFor is that in paragraphs; whoever has only asked the seller has nothing in
// the hand.
const careFor = (mind) => (now.told ? [] : mind.map((what) => el("p", { class: "care" }, careOf[what])));

const cautions = [
  "Try a model on your own supply only: tested, isolated, within the model's rating.",
  "Leave old mains transformers alone: their insulation is as old as they are. Mains work is for qualified people.",
  "A battery at a stall: only one whose voltage suits the model, for a moment, never across a decoder you do not know.",
  "No solvent, oil or eraser on somebody else's model: they take off lettering and craze plastic.",
  "Nothing is opened, unscrewed or unclipped without the seller's leave.",
];
