package field

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"io"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

func built(t *testing.T, p Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := Build(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// element is what stands in the element of a page that begins with a tag.
func element(t *testing.T, page, tag string) string {
	t.Helper()
	_, rest, found := strings.Cut(page, tag)
	name := strings.Fields(strings.Trim(tag, "<>"))[0]
	text, _, closed := strings.Cut(rest, "</"+name+">")
	if !found || !closed {
		t.Fatalf("no %s in the page", tag)
	}
	return text
}

// TestBuildCarriesData: what the page's scripts find is what was gathered.
func TestBuildCarriesData(t *testing.T) {
	p := demoPage(t, "tarnside-s3")
	page := built(t, p)
	r, err := gzip.NewReader(bytes.NewReader(unpack(t, []byte(element(t, page, `<script type="text/plain" id="data">`)))))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	var d data
	if err := json.Unmarshal(text, &d); err != nil {
		t.Fatal(err)
	}
	if len(d.Families) != 1 || d.Families[0].ID != "tarnside-s3" || !d.Demonstration {
		t.Errorf("carries %+v", d.Families)
	}
	sorted, err := p.Engine.sorted()
	if err != nil {
		t.Fatal(err)
	}
	if got := unpack(t, []byte(element(t, page, `<script type="text/plain" id="engine">`))); !bytes.Equal(got, sorted) {
		t.Error("the engine is another one")
	}
}

// TestPolicy: the policy of the page names each of its scripts and its style,
// and lets nothing out.
func TestPolicy(t *testing.T) {
	page := built(t, demoPage(t, largest))
	policy := regexp.MustCompile(`http-equiv="Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(page)
	if policy == nil {
		t.Fatal("no policy")
	}
	for _, tag := range []string{"<style>", `<script id="go">`, `<script id="host">`, `<script id="page">`} {
		if !strings.Contains(policy[1], hash(element(t, page, tag))) {
			t.Errorf("%s is not in the policy", tag)
		}
	}
	want := map[string]string{
		"default-src": "'none'", "connect-src": "'none'", "base-uri": "'none'", "form-action": "'none'",
		"img-src": "data:", "worker-src": "blob:",
	}
	for _, directive := range strings.Split(policy[1], "; ") {
		name, sources, _ := strings.Cut(directive, " ")
		if w, ok := want[name]; ok && w != sources {
			t.Errorf("%s is %s, not %s", name, sources, w)
		}
		delete(want, name)
		for _, source := range strings.Fields(sources) {
			if source == "*" || source == "'unsafe-inline'" || source == "'unsafe-eval'" || strings.Contains(source, "http") {
				t.Errorf("%s allows %s", name, source)
			}
		}
	}
	for name := range want {
		t.Errorf("the policy has no %s", name)
	}
}

// TestPlainScripts: the scripts make no markup out of text, and name no address.
func TestPlainScripts(t *testing.T) {
	page := built(t, demoPage(t, largest))
	for _, tag := range []string{`<script id="host">`, `<script id="page">`, "<style>"} {
		text := element(t, page, tag)
		for _, bad := range []string{"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "new Function", "http:", "https:", "@import", "url("} {
			if strings.Contains(text, bad) {
				t.Errorf("%s has %q in it", tag, bad)
			}
		}
	}
}

// TestEncoding: outside of what is packed the page is ASCII, so that it reads
// the same in every encoding; and it says which one it is in early enough.
func TestEncoding(t *testing.T) {
	page := built(t, demoPage(t, largest))
	if i := strings.Index(page, `<meta charset="windows-1252">`); i < 0 || i > 1000 {
		t.Errorf("the encoding is said at byte %d", i)
	}
	for _, tag := range []string{`<script type="text/plain" id="data">`, `<script type="text/plain" id="engine">`} {
		page = strings.Replace(page, element(t, page, tag), "", 1)
	}
	if err := inert(strings.NewReplacer("</script>", "", "</style>", "").Replace(page)); err != nil {
		t.Error(err)
	}
}

func TestLean(t *testing.T) {
	const in = "// one\n/* two */\n/* three\n   four */\n\n  a { b: c; } // kept\n\t'/* no comment */'\n"
	if got, want := lean(in), "a { b: c; } // kept\n'/* no comment */'\n"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
}

func TestBuildIsReproducible(t *testing.T) {
	first := built(t, demoPage(t, largest))
	for range 3 {
		if built(t, demoPage(t, largest)) != first {
			t.Fatal("the same input gives two pages")
		}
	}
}

// TestServedPage differs from the file only in where it says it comes from, and
// in that it may load the script that keeps it.
func TestServedPage(t *testing.T) {
	v, err := newView(demoPage(t, largest))
	if err != nil {
		t.Fatal(err)
	}
	served, err := v.page(true)
	if err != nil {
		t.Fatal(err)
	}
	file := strings.NewReplacer(`data-origin="file"`, `data-origin="served"`, "worker-src blob:", "worker-src blob: 'self'").Replace(built(t, demoPage(t, largest)))
	if string(served) != file {
		t.Error("it differs in more")
	}
}

func TestBuildFaults(t *testing.T) {
	var none bytes.Buffer
	if err := Build(&none, demoPage(t)); err == nil || !strings.Contains(err.Error(), "no family") {
		t.Errorf("without a family: %v", err)
	}
	var list diag.List
	if err := Build(&none, demoPage(t, "nohab")); !errors.As(err, &list) {
		t.Errorf("an unknown family is %T: %v", err, err)
	}
	p := demoPage(t, largest)
	p.Engine.Script = []byte("x = 'caf\xe9'\n")
	if err := Build(&none, p); err == nil || !strings.Contains(err.Error(), "0xe9") {
		t.Errorf("a script that is not ASCII: %v", err)
	}
	p.Engine.Script = []byte("'</SCRIPT>'\n")
	if err := Build(&none, p); err == nil || !strings.Contains(err.Error(), "</script") {
		t.Errorf("a script with an end in it: %v", err)
	}
	p = demoPage(t, largest)
	noise := make([]byte, MaxSize)
	rand.NewChaCha8([32]byte{}).Read(noise)
	p.Engine.Wasm = compress(append(program(), section(0, noise)...))
	if err := Build(&none, p); err == nil || !strings.Contains(err.Error(), "fewer families") {
		t.Errorf("a page that is too large: %v", err)
	}
	for _, wasm := range [][]byte{nil, []byte("no gzip"), compress([]byte("no program")), compress(program())[:30]} {
		p.Engine.Wasm = wasm
		if err := Build(&none, p); err == nil || !strings.Contains(err.Error(), "the engine is") {
			t.Errorf("an engine that is none: %v", err)
		}
	}
	if none.Len() > 0 {
		t.Errorf("%d bytes were written", none.Len())
	}
}

// TestHostileData: nothing that stands in the data folder becomes a part of the
// page.
func TestHostileData(t *testing.T) {
	p := demoPage(t, largest)
	folder := p.Data.(fstest.MapFS)
	name := "families/" + largest + ".toml"
	const hostile = "</script><script>alert(1)</script>"
	text := bytes.Replace(folder[name].Data, []byte("Pellworth CE4 alpine electric"), []byte(hostile), 1)
	if bytes.Equal(text, folder[name].Data) {
		t.Fatal("the title was not found")
	}
	folder[name] = &fstest.MapFile{Data: text}
	if page := built(t, p); strings.Contains(page, "alert(1)") || strings.Count(page, "<script") != 5 {
		t.Errorf("the title got out: %d scripts", strings.Count(page, "<script"))
	}
}

// The page has words for all that is to be minded of a check.
func TestMindInWords(t *testing.T) {
	words, err := web.ReadFile("web/words.js")
	if err != nil {
		t.Fatal(err)
	}
	for _, what := range []string{checklist.MindOpening, checklist.MindPower, checklist.MindSolvent} {
		if !bytes.Contains(words, []byte("\n  "+what+": \"")) {
			t.Errorf("nothing of %s", what)
		}
	}
}
