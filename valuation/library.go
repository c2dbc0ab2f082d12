package valuation

import (
	"errors"
	"io/fs"
	"path"
	"strings"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// The places of the files in a data folder.
const (
	settingsFile = "settings.toml"
	pricesFile   = "prices.csv"
	ratesFile    = "rates.csv"
	familiesDir  = "families"
	sheetsDir    = "sheets"
)

// A Library is a data folder: families, charge sheets, prices, rates and
// settings. Each file is read when it is first asked for, and once. A Library
// is not for use by several goroutines at once.
type Library struct {
	fsys          fs.FS
	name          string
	demonstration bool

	settings *loaded[*Settings]
	table    *loaded[*prices.Table]
	rates    *loaded[*prices.Rates]
	families map[string]*loaded[*checklist.Family]
	sheets   map[string]*loaded[*charges.Sheet]
	foreign  map[string]checklist.Part // parts of all families, once asked for
	broken   diag.List                 // what kept families from being read for their parts

	strayRows map[string]diag.List // by family: rows that look misspelt
	columns   loan                 // to appraisals, one after the other
}

// loaded is a file that has been read, with what was found wrong with it.
type loaded[T any] struct {
	value T
	diags diag.List
}

// Open makes a library of a data folder. Nothing is read yet. Diagnostics name
// its files under the given name; with an empty name they are relative paths.
// A demonstration library says so in every appraisal.
func Open(fsys fs.FS, name string, demonstration bool) *Library {
	return &Library{
		fsys: fsys, name: name, demonstration: demonstration,
		families: map[string]*loaded[*checklist.Family]{},
		sheets:   map[string]*loaded[*charges.Sheet]{},

		strayRows: map[string]diag.List{},
	}
}

// shown is a file's path as diagnostics name it.
func (l *Library) shown(file string) string {
	if l.name == "" {
		return file
	}
	return strings.TrimSuffix(l.name, "/") + "/" + file
}

// open opens a file of the folder; a failure is a diagnostic.
func (l *Library) open(file, what string) (fs.File, diag.List) {
	f, err := l.fsys.Open(file)
	if err == nil {
		if info, serr := f.Stat(); serr == nil && info.IsDir() {
			f.Close()
			err = errors.New("is a folder")
		}
	}
	if err == nil {
		return f, nil
	}
	d := diag.Diagnostic{
		Severity: diag.Error, Pos: diag.Pos{File: l.shown(file)},
		Summary: "cannot be read: " + reason(err), Expected: what,
	}
	if errors.Is(err, fs.ErrNotExist) {
		d.Summary = "no such file"
	}
	return nil, diag.List{d}
}

// reason is an error without the path that a diagnostic names already.
func reason(err error) string {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err.Error()
	}
	return err.Error()
}

// document reads a TOML file of the folder.
func (l *Library) document(file, what string) (*diag.Document, diag.List) {
	f, diags := l.open(file, what)
	if f == nil {
		return nil, diags
	}
	defer f.Close()
	doc := diag.ReadDocument(l.shown(file), f)
	if doc.Broken() {
		return nil, doc.Diagnostics()
	}
	return doc, nil
}

// Settings are the folder's settings.
func (l *Library) Settings() (*Settings, diag.List) {
	if l.settings == nil {
		l.settings = &loaded[*Settings]{}
		doc, diags := l.document(settingsFile, "the settings of the data folder")
		if doc != nil {
			l.settings.value = readSettings(doc)
			diags = doc.Diagnostics()
		}
		l.settings.diags = diags
	}
	return l.settings.value, l.settings.diags
}

// Prices is the folder's price table.
func (l *Library) Prices() (*prices.Table, diag.List) {
	if l.table == nil {
		l.table = &loaded[*prices.Table]{}
		f, diags := l.open(pricesFile, "the price table of the data folder")
		if f != nil {
			defer f.Close()
			l.table.value, diags = prices.ReadTable(l.shown(pricesFile), f)
		}
		l.table.diags = diags
	}
	return l.table.value, l.table.diags
}

// Rates are the folder's exchange rates. A folder without rates.csv has none:
// that is an error only where one is needed.
func (l *Library) Rates() (*prices.Rates, diag.List) {
	if l.rates == nil {
		l.rates = &loaded[*prices.Rates]{}
		f, diags := l.open(ratesFile, "exchange rates")
		if f != nil {
			defer f.Close()
			l.rates.value, diags = prices.ReadRates(l.shown(ratesFile), f)
		} else if _, err := fs.Stat(l.fsys, ratesFile); errors.Is(err, fs.ErrNotExist) {
			l.rates.value, diags = prices.NoRates(l.shown(ratesFile)), nil
		}
		l.rates.diags = diags
	}
	return l.rates.value, l.rates.diags
}

// Families are the ids of the folder's families, sorted: a family's file is
// called after its id.
func (l *Library) Families() ([]string, diag.List) { return l.stems(familiesDir) }

// Sheets are the ids of the folder's charge sheets, sorted.
func (l *Library) Sheets() ([]string, diag.List) { return l.stems(sheetsDir) }

func (l *Library) stems(dir string) ([]string, diag.List) {
	entries, err := fs.ReadDir(l.fsys, dir)
	if err != nil {
		summary := "folder cannot be read: " + reason(err)
		if errors.Is(err, fs.ErrNotExist) {
			summary = "no such folder"
		}
		return nil, diag.List{{
			Severity: diag.Error, Pos: diag.Pos{File: l.shown(dir)},
			Summary: summary, Expected: "a folder of TOML files",
		}}
	}
	var ids []string
	for _, e := range entries {
		if id, ok := strings.CutSuffix(e.Name(), ".toml"); ok && !e.IsDir() && id != "" && id[0] != '.' {
			ids = append(ids, id)
		}
	}
	return ids, nil
}

// Family is one family of the folder, its ids and templates resolved.
func (l *Library) Family(id string) (*checklist.Family, diag.List) {
	got, ok := l.families[id]
	if !ok {
		got = &loaded[*checklist.Family]{}
		got.value, _, got.diags = l.readFamily(id)
		l.families[id] = got
	}
	return got.value, got.diags
}

// readFamily reads a family and returns its document for further proof.
func (l *Library) readFamily(id string) (*checklist.Family, *diag.Document, diag.List) {
	doc, diags := l.entry(familiesDir, id, "family", l.Families)
	if doc == nil {
		return nil, nil, diags
	}
	f := checklist.Read(doc, l.foreignPart)
	if f.ID != "" && f.ID != id {
		doc.Root().Report("id", "the file is called after another id", "id = "+quoted(id)+", or the file called "+f.ID+".toml", "")
	}
	diags = doc.Diagnostics()
	for _, p := range f.Parts {
		if p.Foreign && l.foreign[p.ID].ID == "" {
			return f, doc, append(diags, l.broken...).Sorted()
		}
	}
	return f, doc, diags
}

// Sheet is one charge sheet of the folder.
func (l *Library) Sheet(id string) (*charges.Sheet, diag.List) {
	got, ok := l.sheets[id]
	if !ok {
		got = &loaded[*charges.Sheet]{}
		doc, diags := l.entry(sheetsDir, id, "charge sheet", l.Sheets)
		if doc != nil {
			got.value = charges.Read(doc)
			if s := got.value; s.ID != "" && s.ID != id {
				doc.Root().Report("id", "the file is called after another id", "id = "+quoted(id)+", or the file called "+s.ID+".toml", "")
			}
			diags = doc.Diagnostics()
		}
		got.diags = diags
		l.sheets[id] = got
	}
	return got.value, got.diags
}

// entry reads dir/id.toml; an unknown id gets the nearest known one.
func (l *Library) entry(dir, id, what string, known func() ([]string, diag.List)) (*diag.Document, diag.List) {
	if l.has(dir, id) {
		return l.document(entryFile(dir, id), "a "+what)
	}
	ids, diags := known()
	if diags.HasErrors() {
		return nil, diags
	}
	near, _ := diag.Nearest(id, ids)
	return nil, diag.List{{
		Severity: diag.Error, Pos: diag.Pos{File: l.shown(dir)},
		Summary: "no " + what + " called " + quoted(id), Expected: "one of " + listed(ids), Try: near,
	}}
}

func entryFile(dir, id string) string { return path.Join(dir, id+".toml") }

// has tells whether dir/id.toml is there, readable or not. An id that leads out
// of the folder is not.
func (l *Library) has(dir, id string) bool {
	file := entryFile(dir, id)
	if id == "" || !fs.ValidPath(file) || path.Dir(file) != dir || path.Base(file) != id+".toml" {
		return false
	}
	_, err := fs.Stat(l.fsys, file)
	return !errors.Is(err, fs.ErrNotExist)
}

// foreignPart looks a part up in the other families of the folder.
func (l *Library) foreignPart(id string) (checklist.Part, bool) {
	if l.foreign == nil {
		l.readForeign()
	}
	p, ok := l.foreign[id]
	if !ok && len(l.broken) > 0 {
		// It may be in a family that cannot be read: that is the error, and no
		// part of it is unknown.
		return checklist.Part{ID: id, Title: id}, true
	}
	return p, ok
}

// readForeign collects the parts that the families define themselves. What keeps
// some from being read is kept; whatever else is wrong with those families is
// reported when they are asked for.
func (l *Library) readForeign() {
	l.foreign = map[string]checklist.Part{}
	ids, _ := l.Families()
	for _, id := range ids {
		doc, diags := l.document(entryFile(familiesDir, id), "a family")
		if doc == nil {
			l.broken = append(l.broken, diags...)
			continue
		}
		parts, diags := checklist.ReadParts(doc)
		l.broken = append(l.broken, diags...)
		for _, p := range parts {
			if _, ok := l.foreign[p.ID]; !ok && p.ID != "" {
				p.File = l.shown(entryFile(familiesDir, id))
				l.foreign[p.ID] = p
			}
		}
	}
}
