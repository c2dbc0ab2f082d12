package main

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// A ranking is several listings being appraised. Of each it keeps one row.
type ranking struct {
	*appraiseOptions
	library *valuation.Library
	lots    []table.Lot
	undated int
	said    map[diag.Diagnostic]bool // printed before: not again for each listing
	bad     int
}

// rank appraises the files one by one and prints them side by side. What is bad
// is reported as it comes, and the others are ranked all the same.
func (opts *appraiseOptions) rank(library *valuation.Library, demonstration bool, files []string, bad []error) error {
	r := &ranking{appraiseOptions: opts, library: library, said: map[diag.Diagnostic]bool{}}
	for _, err := range bad {
		complain(opts.Err, err)
	}
	bar := opts.progress(len(files))
	for i, file := range files {
		bar.Step(i)
		if err := r.add(file, bar); err != nil {
			bar.Hide()
			r.report(file, err)
		}
	}
	bar.Hide()
	slices.SortStableFunc(r.lots, table.CompareLots)
	var b bytes.Buffer
	if len(r.lots) > 0 || opts.JSON || opts.CSV {
		if err := r.print(&b, demonstration); err != nil {
			return err
		}
	}
	if err := opts.deliver(b.Bytes()); err != nil {
		return err
	}
	return r.outcome(len(files), len(bad))
}

// add appraises one listing and keeps its row.
func (r *ranking) add(file string, bar *progress) error {
	in, name, err := load.Listing(file, r.In)
	if err != nil {
		return err
	}
	defer in.Close()
	listing, read := r.library.ReadListing(name, in)
	if err := read.Err(); err != nil {
		return err
	}
	a, done := r.library.Appraise(listing, r.Engine)
	if err := done.Err(); err != nil {
		return err
	}
	if list := r.unsaid(append(read, done...)); len(list) > 0 {
		bar.Hide()
		r.warn(list)
	}
	if listing.Date.IsZero() {
		r.undated++
	}
	r.lots = append(r.lots, lotOf(name, a))
	return nil
}

// unsaid are the diagnostics that have not been printed yet; they count as
// printed from then on.
func (r *ranking) unsaid(list diag.List) diag.List {
	var out diag.List
	for _, d := range list {
		if !r.said[d] {
			r.said[d] = true
			out.Add(d)
		}
	}
	return out
}

// report prints why a listing could not be appraised. What is wrong with the
// data folder is printed for the first listing alone.
func (r *ranking) report(file string, err error) {
	r.bad++
	list, ok := errors.AsType[diag.List](err)
	if !ok {
		complain(r.Err, err)
		return
	}
	if list = r.unsaid(list); len(list) > 0 {
		complain(r.Err, list)
		return
	}
	r.note(load.Short(file) + ": for the same reason")
}

// print renders the ranking in the form asked for.
func (r *ranking) print(b *bytes.Buffer, demonstration bool) error {
	if !r.JSON && !r.CSV {
		return table.Ranking(b, r.lots, demonstration, r.Layout)
	}
	if demonstration {
		r.note(table.DemonstrationNote)
	}
	if r.JSON {
		return writeRankingJSON(escaper{b}, r.lots, demonstration)
	}
	return writeRankingCSV(b, r.lots, demonstration)
}

// outcome is what the ranking comes to as an error, nil where nothing is amiss.
func (r *ranking) outcome(files, folders int) error {
	if r.undated > 0 {
		r.note(counted(r.undated, "listing") + " without a date: today's prices and rates were used for them")
	}
	if r.bad+folders > 0 {
		what := fmt.Sprintf("%d of %s appraised", len(r.lots), counted(files, "listing"))
		if r.bad > 0 {
			what += fmt.Sprintf(", %d could not be", r.bad)
		}
		if folders > 0 {
			what += "; " + counted(folders, "folder") + " not usable"
		}
		return &badData{what}
	}
	unpriced := 0
	for i := range r.lots {
		if len(r.lots[i].Unpriced) > 0 {
			unpriced++
		}
	}
	if unpriced > 0 {
		return &refusal{what: "no figure can be given for " + counted(unpriced, "listing") + ": a price is missing",
			hints: []string{"lotgauge appraise LISTING names the price to add"}}
	}
	return nil
}
