package browser

import (
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/chromedp"
)

// TestAccessible reads the page as a screen reader is given it: one of each
// landmark, headings in order, a name for every picture and region, and tables
// that stay tables where the phone's layout takes them apart.
func TestAccessible(t *testing.T) {
	for _, name := range []string{"rich", "walk-away", "unpriced", "hostile"} {
		for _, s := range []screen{phone, laptop} {
			t.Run(name+"/"+s.name, func(t *testing.T) {
				x := open(t, pages(t)[name], s)
				tree, err := chromedp.Call(x, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
				if err != nil {
					t.Fatal(err)
				}
				counts, level := map[string]int{}, 0
				for _, n := range tree.Nodes {
					if n.Ignored {
						continue
					}
					role := text(n.Role)
					counts[role]++
					switch role {
					case "image", "img", "graphics-document", "region", "navigation", "link", "heading", "columnheader", "rowheader":
						if text(n.Name) == "" {
							t.Errorf("a %s has no name", role)
						}
					}
					if role == "heading" {
						this := headingLevel(n)
						if this > level+1 {
							t.Errorf("heading %q of level %d after level %d", text(n.Name), this, level)
						}
						level = this
					}
				}
				for _, landmark := range []string{"banner", "main", "contentinfo", "navigation"} {
					if counts[landmark] != 1 {
						t.Errorf("%d landmarks %s", counts[landmark], landmark)
					}
				}
				want := ask[int](t, x, `return [...document.querySelectorAll("table")].filter(e => e.checkVisibility()).length`)
				if counts["table"] != want || want == 0 {
					t.Errorf("%d tables are tables, of %d in sight", counts["table"], want)
				}
				plots := ask[int](t, x, `return [...document.querySelectorAll("svg[role=img]")].filter(e => e.checkVisibility()).length`)
				if got := counts["image"] + counts["img"]; got != plots || plots == 0 {
					t.Errorf("%d plots are pictures, of %d in sight", got, plots)
				}
			})
		}
	}
}

func text(v *accessibility.Value) string {
	if v == nil {
		return ""
	}
	s := string(v.Value)
	if len(s) >= 2 && s[0] == '"' {
		s = s[1 : len(s)-1]
	}
	return s
}

func headingLevel(n *accessibility.Node) int {
	level := 0
	for _, p := range n.Properties {
		if p.Name == "level" {
			fmt.Sscan(string(p.Value.Value), &level)
		}
	}
	return level
}

// TestKeyboard walks through the page with the Tab key: every link and fold is
// reached once, in order down the page, and shows that it is.
func TestKeyboard(t *testing.T) {
	x := open(t, pages(t)["rich"], laptop)
	want := ask[int](t, x, `return [...document.querySelectorAll("a, summary")].filter(e => e.checkVisibility()).length`)
	seen := map[string]bool{}
	for range want {
		run(t, x, chromedp.KeyEvent("\t"))
		at := ask[struct {
			ID, Outline string
		}](t, x, `
			const e = document.activeElement, all = [...document.querySelectorAll("a, summary")];
			return {ID: e.tagName + all.indexOf(e), Outline: getComputedStyle(e).outlineStyle}`)
		if at.Outline != "solid" {
			t.Errorf("%s does not show that it is reached", at.ID)
		}
		seen[at.ID] = true
	}
	if len(seen) != want {
		t.Errorf("%d of %d links and folds are reached", len(seen), want)
	}
}
