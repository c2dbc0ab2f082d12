package page

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// laws hands every fixture's page, parsed, to a test of its own.
func laws(t *testing.T, law func(t *testing.T, page string, root *node)) {
	t.Helper()
	for name, a := range fixtures() {
		t.Run(name, func(t *testing.T) {
			page := written(t, a)
			root, err := parse(page)
			if err != nil {
				t.Fatalf("not well formed: %v", err)
			}
			law(t, page, root)
		})
	}
}

// elements that a page may consist of. None of them runs, loads or sends
// anything.
var elements = strings.Fields(`html head meta link title style body header main footer nav section h1 h2 h3 p div span
	b strong bdi time a ul li dl dt dd figure figcaption details summary table caption thead tbody tr th td
	svg desc defs path rect line circle use text`)

// TestKeepsToItself: no script, no handler, no address, whatever the texts say.
func TestKeepsToItself(t *testing.T) {
	allowed := map[string]bool{"#root": true, "#text": true}
	for _, e := range elements {
		allowed[e] = true
	}
	laws(t, func(t *testing.T, page string, root *node) {
		for _, n := range root.all(func(*node) bool { return true }) {
			if !allowed[n.name] {
				t.Errorf("there is a <%s>", n.name)
			}
			for key, value := range n.attr {
				if strings.HasPrefix(key, "on") || key == "src" || key == "style" {
					t.Errorf("<%s> has %s=%q", n.name, key, value)
				}
				if key == "href" && !strings.HasPrefix(value, "#") && value != "data:," {
					t.Errorf("<%s> leads to %q", n.name, value)
				}
			}
		}
		for _, style := range root.named("style") {
			if css := style.flat(); strings.Contains(css, "url(") || strings.Contains(css, "@import") {
				t.Error("the style loads something")
			}
		}
		if strings.Contains(page, "http:") || strings.Contains(page, "https:") {
			t.Error("the page names an address")
		}
	})
}

func TestPolicy(t *testing.T) {
	root, err := parse(written(t, rich()))
	if err != nil {
		t.Fatal(err)
	}
	for _, meta := range root.named("meta") {
		if meta.attr["http-equiv"] == "Content-Security-Policy" {
			if got, want := meta.attr["content"], "default-src 'none'; style-src 'unsafe-inline'; img-src data:"; got != want {
				t.Errorf("policy %q, want %q", got, want)
			}
			return
		}
	}
	t.Error("the page has no policy")
}

// TestNoControls: nothing that moves a cursor or turns the writing around.
func TestNoControls(t *testing.T) {
	laws(t, func(t *testing.T, page string, root *node) {
		for _, r := range page {
			if r != '\n' && (unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Bidi_Control, r)) {
				t.Fatalf("the page has %U", r)
			}
		}
	})
}

// TestSkeleton: one language, one main heading, no heading level left out, one
// of each landmark, every section named by its heading, every id once.
func TestSkeleton(t *testing.T) {
	laws(t, func(t *testing.T, page string, root *node) {
		if lang := root.named("html")[0].attr["lang"]; lang != "en" {
			t.Errorf("language %q", lang)
		}
		for _, landmark := range []string{"header", "main", "footer", "nav", "h1", "title"} {
			want := 1
			if landmark == "title" {
				want += len(root.named("svg")) - 1 // each but the store of marks has one
				if len(root.named("defs")) == 0 {
					want++
				}
			}
			if got := len(root.named(landmark)); got != want {
				t.Errorf("%d <%s>, want %d", got, landmark, want)
			}
		}
		ids := map[string]*node{}
		for _, n := range root.all(func(n *node) bool { return n.attr["id"] != "" }) {
			if ids[n.attr["id"]] != nil {
				t.Errorf("the id %q is there twice", n.attr["id"])
			}
			ids[n.attr["id"]] = n
		}
		level := 0
		for _, h := range root.named("h1", "h2", "h3") {
			this, err := strconv.Atoi(h.name[1:])
			if err != nil || this > level+1 || h.words() == "" {
				t.Errorf("<%s> %q after level %d", h.name, h.words(), level)
			}
			level = this
		}
		for _, s := range root.named("section") {
			if h := ids[s.attr["aria-labelledby"]]; h == nil || h.name != "h2" {
				t.Errorf("section %q is not named by its heading", s.attr["class"])
			}
		}
		for _, a := range root.named("a", "use") {
			if ids[strings.TrimPrefix(a.attr["href"], "#")] == nil {
				t.Errorf("%q leads nowhere", a.attr["href"])
			}
		}
	})
}

// place is how a place in a plot may be written.
var place = regexp.MustCompile(`^-?\d+(\.\d{1,2})?%?$`)

// TestPlots: each has a name, a description and a table of its numbers, and
// draws at finite places, across within its width.
func TestPlots(t *testing.T) {
	laws(t, func(t *testing.T, page string, root *node) {
		for _, svg := range root.named("svg") {
			if svg.has("defs") {
				continue
			}
			name, desc := svg.named("title"), svg.named("desc")
			if svg.attr["role"] != "img" || len(name) != 1 || len(desc) != 1 || name[0].words() == "" {
				t.Fatalf("a plot without a name: %v", svg.attr)
			}
			if want := name[0].attr["id"] + " " + desc[0].attr["id"]; svg.attr["aria-labelledby"] != want {
				t.Errorf("%s is labelled by %q", name[0].words(), svg.attr["aria-labelledby"])
			}
			if home := svg.within("figure"); svg.within("table") == nil && (home == nil || len(home.named("table")) == 0) {
				t.Errorf("%s has no table", name[0].words())
			}
			for _, mark := range svg.named("rect", "line", "circle", "use", "text") {
				checkMark(t, name[0].words(), mark)
			}
		}
	})
}

func checkMark(t *testing.T, plot string, mark *node) {
	t.Helper()
	for _, key := range []string{"x", "x1", "x2", "cx", "y", "y1", "y2", "cy", "r", "width", "height"} {
		value, there := mark.attr[key]
		if there && !place.MatchString(value) {
			t.Errorf("%s: <%s %s=%q>", plot, mark.name, key, value)
		}
		if across, ok := strings.CutSuffix(value, "%"); ok {
			if p, err := strconv.ParseFloat(across, 64); err != nil || p < 0 || p > 100 {
				t.Errorf("%s: <%s %s=%q> is outside", plot, mark.name, key, value)
			}
		}
	}
	if strings.HasPrefix(mark.attr["width"], "-") || strings.HasPrefix(mark.attr["height"], "-") {
		t.Errorf("%s: a bar of negative size: %v", plot, mark.attr)
	}
}

// TestTables: every table says what its columns are and what its rows are.
func TestTables(t *testing.T) {
	laws(t, func(t *testing.T, page string, root *node) {
		for _, table := range root.named("table") {
			heads := table.named("thead")
			if len(heads) != 1 {
				t.Fatalf("a table without head: %s", table.words())
			}
			columns := len(heads[0].named("th"))
			for _, body := range table.named("tbody") {
				for _, row := range body.named("tr") {
					if got := len(row.named("th", "td")); got != columns {
						t.Errorf("%d cells below %d heads: %s", got, columns, row.words())
					}
				}
			}
			for _, th := range table.named("th") {
				if th.attr["scope"] == "" || th.words() == "" {
					t.Errorf("a head without words or scope in %s", heads[0].words())
				}
			}
		}
	})
}
