package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// begin starts the inspection that was asked for, or goes on with one.
func (opts *inspectOptions) begin(library *valuation.Library, demonstration bool) (*dialogue, error) {
	d := &dialogue{inspectOptions: opts, demonstration: demonstration, told: map[string]bool{}}
	var err error
	if isListing(opts.What) || opts.Resume != "" {
		err = d.continueListing(library)
	} else {
		err = d.beginFamily(library)
	}
	if err != nil {
		return nil, err
	}
	x := d.n.Listing()
	f, diags := library.Family(x.Family)
	if err := diags.Err(); err != nil {
		return nil, err
	}
	d.family = f
	if settings, diags := library.Settings(); !diags.HasErrors() { // the inspection has read them
		d.demonstration = d.demonstration || settings.Demonstration
	}
	if d.n.Outlook() == valuation.NotPriced {
		return nil, unweighed(d.n.Standing())
	}
	for _, r := range d.n.Standing().Rules {
		d.told[r.ID] = true // the head says it
	}
	return d, nil
}

// unweighed is the refusal where a price is missing from the start.
func unweighed(s *valuation.Standing) error {
	r := &refusal{what: "no check can be weighed: " + counted(len(s.Missing), "price") + " missing"}
	for _, m := range s.Missing {
		r.hints = append(r.hints, "add to prices.csv: "+m.Row)
	}
	return r
}

// isListing tells a listing file from a family: by its look, or because there
// is such a file.
func isListing(what string) bool {
	if what == "-" || strings.EqualFold(filepath.Ext(what), ".toml") || strings.ContainsAny(what, `/\`) {
		return true
	}
	info, err := os.Stat(what)
	return err == nil && info.Mode().IsRegular()
}

// here is the evidence to be had.
func (opts *inspectOptions) here() []string {
	if opts.Track {
		return []string{valuation.ByHand, valuation.ByTrack}
	}
	return []string{valuation.ByHand}
}

// inspect starts the engine's inspection of a listing.
func (d *dialogue) inspect(library *valuation.Library, x *valuation.Listing) error {
	n, diags := library.Inspect(x, valuation.InspectOptions{Options: d.Engine, Here: d.here()})
	if err := diags.Err(); err != nil {
		return err
	}
	d.warn(diags)
	d.n = n
	return nil
}

// beginFamily begins with a model that nothing is known of.
func (d *dialogue) beginFamily(library *valuation.Library) error {
	x, diags := library.NewFind(d.What, d.Ask, d.Buy, d.Engine.Today)
	if err := diags.Err(); err != nil {
		return err
	}
	var base bytes.Buffer
	if err := x.WriteTOML(&base); err != nil {
		return err
	}
	if err := d.inspect(library, x); err != nil {
		return err
	}
	file := d.Output
	if file == "" {
		file = freeName(x.Family + "-" + d.n.Listing().Date.Format("2006-01-02"))
	} else if err := taken(file); err != nil {
		return err
	}
	d.record = &record{file: file, base: base.Bytes()}
	return nil
}

// taken is the error of an output that is there already.
func taken(file string) error {
	if info, err := os.Stat(file); err != nil || !info.Mode().IsRegular() {
		return nil
	}
	return &load.Error{Path: load.Short(file), What: "is there already", Mistaken: true,
		Hint: "lotgauge inspect " + load.Short(file) + " goes on with it; or name another file"}
}

// freeName is the first of NAME.toml, NAME-2.toml and so on that is not there.
func freeName(name string) string {
	file := name + ".toml"
	for i := 2; ; i++ {
		if _, err := os.Lstat(file); err != nil {
			return file
		}
		file = fmt.Sprintf("%s-%d.toml", name, i)
	}
}

// continueListing begins with what a listing has found, or goes on with an
// inspection.
func (d *dialogue) continueListing(library *valuation.Library) error {
	text, name, err := d.read(d.What)
	if err != nil {
		return err
	}
	whole, diags := library.ReadListing(name, bytes.NewReader(text))
	if err := diags.Err(); err != nil {
		return err
	}
	d.warn(diags)
	file := d.Output
	switch same := d.What != "-" && (file == "" || load.Overwrites(file, []string{d.What}) != nil); {
	case same && (d.Ask != "" || d.Buy != ""):
		return usagef("%s says itself what is asked and how it is bought", name).
			hint("change it there, or name another file with -o")
	case same:
		file = d.What
		d.record = &record{file: file, last: text}
	default:
		if err := taken(file); err != nil {
			return err
		}
		d.record = &record{file: file}
	}
	return d.takeUp(library, whole, text)
}

// takeUp repeats what was answered in the inspection of a file, so that it can
// be taken back. Where the file no longer says what came of it, what the file
// says counts as found.
func (d *dialogue) takeUp(library *valuation.Library, whole *valuation.Listing, text []byte) error {
	base, replies := divide(text)
	start, diags := valuation.ReadListing(whole.File, bytes.NewReader(base))
	if diags.HasErrors() {
		start, replies = whole, nil
	}
	base, err := d.offer(library, start, base)
	if err != nil {
		return err
	}
	if err := d.inspect(library, start); err == nil && d.repeat(replies) && sameFindings(d.n.Listing(), whole) {
		d.record.base = base
		return nil
	}
	if base, err = d.offer(library, whole, forgetful(text)); err != nil {
		return err
	}
	if err := d.inspect(library, whole); err != nil {
		return err
	}
	d.record.base = base
	d.repeat(unanswered(replies))
	return nil
}

// offer puts the price asked and the sheet of the command line in the place of
// those of a listing. The text is written anew where it changes, or where
// nothing can be added at its end.
func (d *dialogue) offer(library *valuation.Library, x *valuation.Listing, base []byte) ([]byte, error) {
	changed := d.Ask != "" || d.Buy != ""
	if changed {
		buy := d.Buy
		if buy == "" {
			buy = x.Buy
		}
		on := x.Date
		if on.IsZero() {
			on = d.Engine.Today
		}
		find, diags := library.NewFind(x.Family, d.Ask, buy, on)
		if err := diags.Err(); err != nil {
			return nil, err
		}
		x.Buy = find.Buy
		if find.Ask != nil {
			x.Ask, x.Fixed = find.Ask, true
		}
	}
	if !changed && extensible(base) {
		return base, nil
	}
	var b bytes.Buffer
	err := x.WriteTOML(&b)
	return b.Bytes(), err
}

// repeat gives answers again; false if one cannot be given any more.
func (d *dialogue) repeat(replies []valuation.Reply) bool {
	for _, r := range replies {
		c, ok := d.n.Check(r.Check)
		if !ok || d.n.Answer(c, r.Answer).HasErrors() {
			return false
		}
	}
	return true
}

// read reads a listing whole.
func (d *dialogue) read(path string) ([]byte, string, error) {
	in, name, err := load.Listing(path, d.In)
	if err != nil {
		return nil, name, err
	}
	defer in.Close()
	text, err := io.ReadAll(io.LimitReader(in, diag.MaxDocument+1)) // one more is refused as too large
	if err != nil {
		return nil, name, fmt.Errorf("%s: %w", name, err)
	}
	return text, name, nil
}
