package main

import (
	"bytes"

	"lotgauge/cmd/lotgauge/page"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// reckonFinds is over how many simulated finds the error of a sheet is measured.
const reckonFinds = 500

// paper writes the sheet to print.
func (opts *sheetOptions) paper() error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	reckoner, diags := library.Reckon(opts.Families[0], valuation.ReckonOptions{
		InspectOptions: valuation.InspectOptions{Options: opts.Engine},
		Variant:        opts.Variant, Buy: opts.Buy, Finds: reckonFinds,
	})
	if err := diags.Err(); err != nil {
		return err
	}
	opts.warn(diags)
	family, diags := library.Family(opts.Families[0])
	if err := diags.Err(); err != nil {
		return err
	}
	settings, diags := library.Settings()
	if err := diags.Err(); err != nil {
		return err
	}
	s := page.Sheet{
		Reckoner: reckoner, Family: family, Small: opts.Size == "a5", Date: opts.Engine.Today, Finds: reckonFinds,
		Draws: settings.Draws, Seed: settings.Seed, Folder: folder.Name, Cautions: cautions, Demonstration: folder.Demonstration || settings.Demonstration,
	}
	if opts.Engine.Draws > 0 {
		s.Draws = opts.Engine.Draws
	}
	if opts.Engine.SeedSet {
		s.Seed = opts.Engine.Seed
	}
	var b bytes.Buffer
	if err := page.WriteSheet(&b, s); err != nil {
		return err
	}
	if s.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	return opts.deliverTo(dashed(opts.Paper), b.Bytes())
}

// dashed is a file to write to, where - is standard output.
func dashed(file string) string {
	if file == "-" {
		return ""
	}
	return file
}
