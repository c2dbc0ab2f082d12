package main

import (
	"encoding/json"
	"fmt"
	"strings"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// desk answers the page's calls. It keeps the data folder that the page brought.
type desk struct {
	library  *valuation.Library
	lastRate string // day of the newest rates, "" for none
	current  *course
}

// bundle is what the page knows of its data; cmd/lotgauge/field writes it.
type bundle struct {
	Demonstration bool              `json:"demonstration"`
	LastRate      string            `json:"last_rate"`
	Files         map[string]string `json:"files"`
}

// An operation is one thing the page may ask for: JSON in, a value for JSON out.
type operation func(d *desk, argument string) (any, error)

// operations by name.
//
//	open    bundle                         take the data folder; nothing is read yet
//	family  id                             what there is to look at: familyView
//	start   {family, buy, today}           the day to appraise a new find on
//	figure  question                       the figures and the next checks: figureView
//	answer  question with key and answer   the finding that an answer to a check comes to
//	json    find                           the appraisal, the bytes of appraise --json
//	toml    find                           the listing file
//	read    text of a listing file         the find
//	clean   text                           the text as a terminal shows it
var operations = map[string]operation{
	"open":   (*desk).open,
	"family": (*desk).family,
	"start":  with((*desk).start),
	"figure": with((*desk).figure),
	"answer": with((*desk).answer),
	"json":   with((*desk).json),
	"toml":   with((*desk).toml),
	"read":   (*desk).read,
	"clean":  (*desk).clean,
}

// with makes an operation of one whose argument is JSON.
func with[T any](f func(*desk, T) (any, error)) operation {
	return func(d *desk, argument string) (any, error) {
		var v T
		if err := json.Unmarshal([]byte(argument), &v); err != nil {
			return nil, faultf("the page asked for something that cannot be read: %v", err)
		}
		return f(d, v)
	}
}

// call performs an operation and answers as JSON, whatever happens.
func (d *desk) call(name, argument string) (reply string) {
	defer func() {
		if r := recover(); r != nil {
			reply = answer(nil, &fault{Message: fmt.Sprintf("the engine failed in %q: %v", name, r), Broken: true})
		}
	}()
	op, ok := operations[name]
	if !ok {
		return answer(nil, faultf("the engine knows no operation %q", name))
	}
	if d.library == nil && name != "open" {
		return answer(nil, faultf("the engine has no data yet"))
	}
	v, err := op(d, argument)
	return answer(v, err)
}

// answer is the JSON of a result or of an error.
func answer(v any, err error) string {
	reply := map[string]any{"ok": v}
	if err != nil {
		reply = map[string]any{"error": asFault(err)}
	}
	text, err := json.Marshal(reply)
	if err != nil {
		return answer(nil, faultf("an answer that is no JSON: %v", err))
	}
	return string(text)
}

func (d *desk) open(argument string) (any, error) {
	var b bundle
	if err := json.Unmarshal([]byte(argument), &b); err != nil {
		return nil, faultf("the page's data cannot be read: %v", err)
	}
	d.library = valuation.Open(memory(b.Files), "", b.Demonstration)
	d.lastRate = b.LastRate
	return true, nil
}

type startRequest struct {
	Family string `json:"family"`
	Buy    string `json:"buy"`
	Today  string `json:"today"`
}

// start is the day on which a new find is appraised: today, or the day of the
// newest rates where they are too old for today.
func (d *desk) start(r startRequest) (any, error) {
	day := r.Today
	if d.lastRate != "" && d.lastRate < day && d.outdated(r) {
		day = d.lastRate
	}
	return day, nil
}

// outdated tells whether rates are missing for today and not for their own last
// day.
func (d *desk) outdated(r startRequest) bool {
	works := func(day string) bool {
		_, err := d.appraise(find{Title: "-", Family: r.Family, Buy: r.Buy, Date: day}, valuation.MinDraws)
		return err == nil
	}
	return !works(r.Today) && works(d.lastRate)
}

// json is the appraisal as the command line prints it.
func (d *desk) json(f find) (any, error) {
	a, err := d.appraise(f, 0)
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	err = a.WriteJSON(&b)
	return b.String(), err
}

// toml is the find as a listing file.
func (d *desk) toml(f find) (any, error) {
	x, err := f.listing(d.library)
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	err = x.WriteTOML(&b)
	return b.String(), err
}

func (d *desk) read(text string) (any, error) {
	x, diags := d.library.ReadListing("listing", strings.NewReader(text))
	if err := diags.Err(); err != nil {
		return nil, err
	}
	return newFind(x), nil
}

// clean is text from anywhere as it may be shown: what would turn the writing
// around or cannot be seen is spelt out.
func (d *desk) clean(text string) (any, error) { return diag.Clean(text), nil }

func (d *desk) appraise(f find, draws int) (*valuation.Appraisal, error) {
	x, err := f.listing(d.library)
	if err != nil {
		return nil, err
	}
	a, diags := d.library.Appraise(x, valuation.Options{Draws: draws})
	if err := diags.Err(); err != nil {
		return nil, err
	}
	return a, nil
}
