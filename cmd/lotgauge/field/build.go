package field

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"text/template"
	"time"
)

// A Page is what a phone page is made of.
type Page struct {
	// Data is the data folder, Name how messages name it, as for
	// [valuation.Open]; Demonstration marks the built-in one.
	Data          fs.FS
	Name          string
	Demonstration bool
	// Families are the ids of those to take along, at least one.
	Families []string
	// Buy is the id of the charge sheet that new finds on the page are bought by;
	// empty: that of the last find, and of the settings for the first.
	Buy string
	// Made is the day that the page shows as that of its prices.
	Made time.Time
	// Engine is what [FindEngine] found.
	Engine Engine
}

// MaxSize is the size in bytes above which a page is refused: what a phone
// still opens at once, and sends on.
const MaxSize = 2_000_000

//go:embed web
var web embed.FS

// The style and scripts of the page, in the order in which they come. The host
// is a script of its own, since a worker runs it too.
var (
	styles      = []string{"style.css", "screens.css"}
	hostScripts = []string{"unpack.js", "inflate.js", "join.js", "host.js"}
	pageScripts = []string{
		"dom.js", "words.js", "store.js", "engine.js", "find.js", "figures.js", "check.js", "points.js",
		"model.js", "deal.js", "hand.js", "finds.js", "help.js", "main.js",
	}
)

// The template is text, not html/template, which would not leave scripts and
// packed bytes alone. Nothing in it is from the user: their text is packed.
var shell = template.Must(template.ParseFS(web, "web/page.html"))

// Build writes the phone page as one HTML file. Mistakes in the data are a
// [diag.List]; a page over [MaxSize] is an error. The same input gives the same
// bytes. Nothing is written where it fails.
func Build(w io.Writer, p Page) error {
	v, err := newView(p)
	if err != nil {
		return err
	}
	page, err := v.page(false)
	if err != nil {
		return err
	}
	_, err = w.Write(page)
	return err
}

// view is what the template shows.
type view struct {
	Policy, Origin string
	Style, Script  string
	Host, Page     string
	Data, Engine   string
}

// newView collects and packs what the page consists of.
func newView(p Page) (*view, error) {
	if len(p.Families) == 0 {
		return nil, errors.New("no family to make a page of")
	}
	d, err := gather(p)
	if err != nil {
		return nil, err
	}
	text, err := json.Marshal(d)
	if err != nil {
		return nil, err
	}
	program, err := p.Engine.sorted()
	if err != nil {
		return nil, err
	}
	v := &view{
		Script: lean(string(p.Engine.Script)),
		Data:   string(pack(compress(text))), Engine: string(pack(program)),
	}
	return v, v.read()
}

// read reads the page's own style and scripts.
func (v *view) read() error {
	for text, files := range map[*string][]string{&v.Style: styles, &v.Host: hostScripts, &v.Page: pageScripts} {
		var err error
		if *text, err = joined(files...); err != nil {
			return err
		}
	}
	for _, text := range []string{v.Style, v.Script, v.Host, v.Page} {
		if err := inert(text); err != nil {
			return err
		}
	}
	return nil
}

// page is the page as a file, or as a server shows it: then it may also load the
// script that keeps it, from where it came itself.
func (v view) page(served bool) ([]byte, error) {
	v.Origin = "file"
	if served {
		v.Origin = "served"
	}
	v.Policy = v.policy(served)
	var page bytes.Buffer
	if err := shell.Execute(&page, v); err != nil {
		return nil, err
	}
	if page.Len() > MaxSize {
		return nil, fmt.Errorf("the page would be %d bytes long, over the %d that a phone opens at once: take fewer families", page.Len(), MaxSize)
	}
	return page.Bytes(), nil
}

// joined are files of the folder web, one after the other.
func joined(names ...string) (string, error) {
	var b strings.Builder
	for _, name := range names {
		text, err := web.ReadFile("web/" + name)
		if err != nil {
			return "", err
		}
		b.WriteString(lean(string(text)))
	}
	return b.String(), nil
}

// lean is a script or style without the lines that are comments and without
// indentation. No text in them goes over a line.
func lean(text string) string {
	var b strings.Builder
	comment := false
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		comment = comment || strings.HasPrefix(line, "/*")
		if line != "" && !comment && !strings.HasPrefix(line, "//") {
			b.WriteString(line + "\n")
		}
		comment = comment && !strings.HasSuffix(line, "*/")
	}
	return b.String()
}

// inert reports what would not lie in the page as it is: bytes outside ASCII,
// a carriage return, or what would end a script.
func inert(text string) error {
	for i := range len(text) {
		if c := text[i]; c >= 0x80 || c == '\r' || c == 0 {
			return fmt.Errorf("a script or style of the page has the byte %#x in it: %.40q", c, text[i:])
		}
	}
	for _, bad := range []string{"</script", "</style", "<!--"} {
		if i := strings.Index(strings.ToLower(text), bad); i >= 0 {
			return fmt.Errorf("a script or style of the page has %q in it", bad)
		}
	}
	return nil
}

// policy is the Content-Security-Policy: the page's own scripts and style by
// their hashes, WebAssembly, a worker made of its own scripts, and no request.
func (v *view) policy(served bool) string {
	workers := "blob:"
	if served {
		workers += " 'self'"
	}
	return strings.Join([]string{
		"default-src 'none'",
		"script-src 'wasm-unsafe-eval' " + hash(v.Script) + " " + hash(v.Host) + " " + hash(v.Page),
		"style-src " + hash(v.Style),
		"img-src data:",
		"worker-src " + workers,
		"connect-src 'none'",
		"base-uri 'none'",
		"form-action 'none'",
	}, "; ")
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
