package browser

import "testing"

// TestContrast holds every text in sight against what is behind it: 4.5 to 1,
// or 3 to 1 where it is large (Web Content Accessibility Guidelines 2.2,
// success criterion 1.4.3), and the solid marks of plots 3 to 1 (1.4.11).
func TestContrast(t *testing.T) {
	for _, name := range []string{"rich", "walk-away", "unpriced"} {
		for _, s := range []screen{laptop, laptopDark} {
			t.Run(name+"/"+s.name, func(t *testing.T) {
				x := open(t, pages(t)[name], s)
				got := ask[struct {
					Texts, Marks int
					Faults       []string
				}](t, x, contrasts)
				if got.Texts < 100 || got.Marks < 20 {
					t.Errorf("only %d texts and %d marks were looked at", got.Texts, got.Marks)
				}
				for _, fault := range got.Faults {
					t.Error(fault)
				}
			})
		}
	}
}

// contrasts is the relative luminance and ratio of the guidelines, over all
// elements that have text of their own.
const contrasts = `
	const out = {Texts: 0, Marks: 0, Faults: []};
	const rgb = c => c.match(/[\d.]+/g).map(Number);
	const bright = c => {
		const [r, g, b] = rgb(c).map(v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
		return 0.2126 * r + 0.7152 * g + 0.0722 * b;
	};
	const ratio = (a, b) => {
		const [x, y] = [bright(a), bright(b)].sort((p, q) => q - p);
		return (x + 0.05) / (y + 0.05);
	};
	const behind = e => {
		for (; e; e = e.parentElement) {
			const c = getComputedStyle(e).backgroundColor;
			if (rgb(c).length < 4 || rgb(c)[3] > 0) return c;
		}
		return "rgb(255, 255, 255)";
	};
	const judge = (e, what, colour, least) => {
		const r = ratio(colour, behind(e));
		if (r < least && out.Faults.length < 10)
			out.Faults.push(what + " " + r.toFixed(2) + ": " + e.tagName + "." + e.getAttribute("class") + " " + e.textContent.trim().slice(0, 30));
	};
	for (const e of document.querySelectorAll("body *")) {
		if (!e.checkVisibility()) continue;
		const style = getComputedStyle(e), mark = e.closest("svg") && e.tagName !== "text" && e.tagName !== "title" && e.tagName !== "desc";
		if (mark && /\b(kept|sum|down|up|sure|span|range|sound|mean|sold)\b/.test(e.getAttribute("class"))) {
			out.Marks++;
			judge(e, "mark", style.fill, 3);
		}
		if (e.closest("svg") && e.tagName !== "text") continue;
		if (![...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())) continue;
		out.Texts++;
		const size = parseFloat(style.fontSize), large = size >= 24 || size >= 18.66 && style.fontWeight >= 700;
		judge(e, "text", e.tagName === "text" ? style.fill : style.color, large ? 3 : 4.5);
	}
	return out`
