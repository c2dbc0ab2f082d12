package field

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"testing/fstest"

	"lotgauge/valuation"
	"lotgauge/valuation/charges"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// The places of a data folder's files, as the engine looks for them.
const (
	settingsFile = "settings.toml"
	pricesFile   = "prices.csv"
	ratesFile    = "rates.csv"
)

func familyFile(id string) string { return "families/" + id + ".toml" }
func sheetFile(id string) string  { return "sheets/" + id + ".toml" }

// data is what the page carries of a data folder, and what it shows before the
// engine has read any of it. Its JSON form is what the page's scripts and
// cmd/fieldpage read.
type data struct {
	Made          string            `json:"made"` // day, YYYY-MM-DD
	Demonstration bool              `json:"demonstration"`
	Currency      string            `json:"currency"` // of the user
	Draws         int               `json:"draws"`
	Buy           string            `json:"buy"`     // id of the sheet to buy by where a find names none
	NewBuy        string            `json:"new_buy"` // and of that for new finds, "" for that of the last
	Families      []familyEntry     `json:"families"`
	Sheets        []sheetEntry      `json:"sheets"`    // to buy by
	LastRate      string            `json:"last_rate"` // day of the newest rates, "" for none
	Files         map[string]string `json:"files"`     // by path in the data folder
}

type familyEntry struct {
	ID       string `json:"id"`
	Title    string `json:"title"`
	Scale    string `json:"scale"`
	Points   int    `json:"points"`
	Variants int    `json:"variants"`
}

type sheetEntry struct {
	ID       string `json:"id"`
	Title    string `json:"title"`
	Currency string `json:"currency"`
}

// gatherer collects the data of a page.
type gatherer struct {
	fsys    fs.FS
	library *valuation.Library
	data    data
	items   map[string]bool // of the price table
	diags   diag.List
}

// gather collects what the families of p need. A mistake in any of it is an
// error: better at home than at the stall.
func gather(p Page) (*data, error) {
	g := &gatherer{
		fsys: p.Data, library: valuation.Open(p.Data, p.Name, p.Demonstration), items: map[string]bool{},
		data: data{Made: p.Made.Format(dayFormat), Demonstration: p.Demonstration, Files: map[string]string{}},
	}
	if err := CheckBuy(g.library, p.Buy); err != nil {
		return nil, err
	}
	g.data.NewBuy = p.Buy
	g.settings()
	for _, id := range p.Families {
		g.family(id)
	}
	g.sheets()
	g.tables()
	if err := g.diags.Err(); err != nil {
		return nil, err
	}
	return &g.data, g.prove()
}

// CheckBuy reports what a [Page] cannot have as Buy: an id that is no charge
// sheet's of the library, or that of one to sell by. The error is a [diag.List].
func CheckBuy(l *valuation.Library, id string) error {
	if id == "" {
		return nil
	}
	s, diags := l.Sheet(id)
	if err := diags.Err(); err != nil {
		return err
	}
	if s.Side != charges.Buy {
		return diag.List{{
			Severity: diag.Error, Summary: "charge sheet " + strconv.Quote(id) + " is one to sell by",
			Expected: `a sheet with side = "buy"`,
		}}
	}
	return nil
}

func (g *gatherer) settings() {
	s, diags := g.library.Settings()
	g.diags = append(g.diags, diags...)
	if s != nil {
		g.data.Currency, g.data.Draws, g.data.Buy = string(s.Currency), s.Draws, s.Buy
		g.take(settingsFile)
	}
}

// family takes a family in, the items that it has prices for, and the families
// that define parts for it.
func (g *gatherer) family(id string) {
	f, diags := g.library.Family(id)
	g.diags = append(g.diags, diags...)
	if f == nil || diags.HasErrors() || slices.ContainsFunc(g.data.Families, func(e familyEntry) bool { return e.ID == id }) {
		return
	}
	g.data.Families = append(g.data.Families, familyEntry{
		ID: f.ID, Title: f.Title, Scale: f.Scale, Points: len(f.Points), Variants: len(f.Variants),
	})
	g.take(familyFile(id))
	for _, v := range f.Variants {
		g.items[f.ID+"/"+v.ID] = true
	}
	for _, p := range f.Parts {
		g.items[p.ID] = true
		g.source(&p)
	}
}

// source takes the file in that defines a part of another family.
func (g *gatherer) source(p *checklist.Part) {
	if p.Foreign {
		g.take("families/" + path.Base(p.File))
	}
}

// sheets takes all charge sheets in: a listing may name any.
func (g *gatherer) sheets() {
	ids, diags := g.library.Sheets()
	g.diags = append(g.diags, diags...)
	for _, id := range ids {
		s, diags := g.library.Sheet(id)
		g.diags = append(g.diags, diags...)
		if s == nil {
			continue
		}
		g.take(sheetFile(id))
		if s.Side == charges.Buy {
			g.data.Sheets = append(g.data.Sheets, sheetEntry{ID: s.ID, Title: s.Title, Currency: string(s.Currency)})
		}
	}
}

// tables takes in the rows of the price table and of the rates that count.
func (g *gatherer) tables() {
	table, diags := g.library.Prices()
	g.diags = append(g.diags, diags...)
	_, more := g.library.Rates()
	g.diags = append(g.diags, more...)
	if g.diags.HasErrors() {
		return
	}
	g.take(pricesFile)
	first, _ := table.FirstDay()
	g.filter(pricesFile, func(text string) (string, error) { return priceRows(text, g.items, first) })
	if g.take(ratesFile) {
		g.filter(ratesFile, func(text string) (string, error) {
			kept, last, err := rateRows(text, currencies(g.data.Files), first)
			g.data.LastRate = last
			return kept, err
		})
	}
}

func (g *gatherer) filter(file string, f func(string) (string, error)) {
	kept, err := f(g.data.Files[file])
	if err != nil {
		g.diags.Add(diag.Diagnostic{Severity: diag.Error, Pos: diag.Pos{File: file}, Summary: err.Error()})
	}
	g.data.Files[file] = kept
}

// take copies a file; false where there is none.
func (g *gatherer) take(file string) bool {
	text, err := fs.ReadFile(g.fsys, file)
	if errors.Is(err, fs.ErrNotExist) {
		return false
	}
	if err != nil {
		g.diags.Add(diag.Diagnostic{Severity: diag.Error, Pos: diag.Pos{File: file}, Summary: "cannot be read: " + err.Error()})
		return false
	}
	g.data.Files[file] = string(text)
	return true
}

// prove reads the collected files as the page will.
func (g *gatherer) prove() error {
	fsys := fstest.MapFS{}
	for file, text := range g.data.Files {
		fsys[file] = &fstest.MapFile{Data: []byte(text)}
	}
	l := valuation.Open(fsys, "", g.data.Demonstration)
	var diags diag.List
	for _, f := range g.data.Families {
		_, d := l.Family(f.ID)
		diags = append(diags, d...)
	}
	_, d := l.Prices()
	diags = append(diags, d...)
	_, d = l.Rates()
	return append(diags, d...).Err()
}
