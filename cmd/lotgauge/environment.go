package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"time"

	"lotgauge/checklists"
	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/pricedata"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// An environment is what all commands share: the streams and the global flags.
type environment struct {
	streams
	data string // --data
}

func (e *environment) finder() load.Finder {
	return load.Finder{Getenv: e.Getenv, Demo: load.Join(checklists.Files, pricedata.Files)}
}

// library opens the data folder. Nothing of it is read yet.
func (e *environment) library() (*valuation.Library, load.Folder, error) {
	folder, err := e.finder().Find(e.data)
	if err != nil {
		return nil, folder, err
	}
	name := folder.Name
	if name == "." {
		name = "" // messages then say settings.toml, not ./settings.toml
	}
	return valuation.Open(folder.FS, name, folder.Demonstration), folder, nil
}

// today is the day that prices are of where nothing says another: for the
// built-in demonstration the one on which it plays.
func (e *environment) today() time.Time {
	if folder, err := e.finder().Find(e.data); err == nil && folder.Demonstration {
		if day, err := time.Parse(time.DateOnly, pricedata.Today); err == nil && day.Before(e.Now()) {
			return day
		}
	}
	return e.Now()
}

// listing reads a listing that is for a library; what is doubtful in it is
// printed.
func (e *environment) listing(library *valuation.Library, path string) (*valuation.Listing, error) {
	in, name, err := load.Listing(path, e.In)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	listing, diags := library.ReadListing(name, in)
	if err := diags.Err(); err != nil {
		return nil, err
	}
	e.warn(diags)
	return listing, nil
}

// deliverTo writes a whole result to a file in one step, or with "" to standard
// output.
func (e *environment) deliverTo(file string, result []byte) error {
	if file == "" {
		_, err := e.Out.Write(result)
		return unwritten(err)
	}
	return load.Replace(file, func(w io.Writer) error {
		_, err := w.Write(result)
		return unplaced(file, err)
	})
}

// unplaced names the folder that is missing where a file could not be begun.
func unplaced(file string, err error) error {
	known, ok := errors.AsType[*load.Error](err)
	if !ok || !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	missing := *known
	missing.What, missing.Hint = "there is no folder "+load.Short(filepath.Dir(file)), "make it first, or name another file"
	return &missing
}

// answer prints a result whole: for a person, or as JSON, with what a person
// should know of it on standard error.
func (e *environment) answer(asJSON, demonstration bool, json, text func(io.Writer) error) error {
	var b bytes.Buffer
	var err error
	if asJSON {
		if demonstration {
			e.note(table.DemonstrationNote)
		}
		err = json(escaper{&b})
	} else {
		err = text(&b)
	}
	if err != nil {
		return err
	}
	return e.deliverTo("", b.Bytes())
}

// unwritten says that a result could not be printed.
func unwritten(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("cannot write the result: %w", err)
}

// warn prints diagnostics that do not stop the work.
func (e *environment) warn(list diag.List) {
	if len(list) > 0 {
		_ = list.WriteText(e.Err, 0) // if that fails there is nowhere left to say so
	}
}

// note prints a line that is no result.
func (e *environment) note(s string) {
	fmt.Fprintln(e.Err, diag.Clean(s))
}
