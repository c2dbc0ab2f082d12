package main

import (
	"fmt"
	"io"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// pricesDueOptions is what the command line says of the prices to look up.
type pricesDueOptions struct {
	*environment
	Listings []string
	JSON     bool
	Engine   valuation.Options
	Layout   table.Options
}

const pricesDueLong = `Rank the prices that the listings rest on by how much knowing them better would
change decisions: what it would bring on average to know the price exactly
before bidding, over all the listings together. Beside it stand the number of
rows that the price rests on and the age of the newest. Prices that are missing
come first: without them no bid can be given.

LISTING is as for appraise; a folder stands for the listings in it. Name what
you are thinking of buying: lotgauge keeps no record of what it appraised.`

func newPricesDueCmd(e *environment, runF func(*pricesDueOptions) error) *cobra.Command {
	opts := &pricesDueOptions{environment: e}
	var scr screen
	cmd := &cobra.Command{
		Use:   "due LISTING...",
		Short: "Say which prices to look up next",
		Long:  pricesDueLong,
		Example: `  lotgauge prices due listings/
  lotgauge prices due --json loft-find.toml stall.toml`,
		Args: atLeast(1, "name listings, or a folder of them"),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			opts.Listings = args
			full := opts.Layout.Full
			if opts.Layout, err = e.settle(cmd, &opts.Engine, &scr); err != nil {
				return err
			}
			opts.Layout.Full = full
			return runF(opts)
		},
		ValidArgsFunction: listingFiles,
	}
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print all prices as JSON")
	cmd.Flags().BoolVar(&opts.Layout.Full, "full", false, "print all prices that are worth anything")
	addEngineFlags(cmd, &opts.Engine)
	addScreenFlags(cmd, &scr)
	return cmd
}

func runPricesDue(opts *pricesDueOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	settings, diags := library.Settings()
	if err := diags.Err(); err != nil {
		return err
	}
	files, _, bad := load.Listings(opts.Listings)
	var listings []*valuation.Listing
	for _, file := range files {
		x, err := opts.listing(library, file)
		if err != nil {
			bad = append(bad, err)
			continue
		}
		listings = append(listings, x)
	}
	due, diags := library.Due(listings, opts.Engine)
	for _, err := range bad {
		complain(opts.Err, err)
	}
	opts.warn(diags)
	home := string(settings.Currency)
	err = opts.answer(opts.JSON, folder.Demonstration, func(w io.Writer) error {
		return printJSON(w, dueToJSON(due, home))
	}, func(w io.Writer) error {
		if len(listings) == 0 {
			return nil
		}
		return table.Due(w, due, home, len(listings), opts.Engine.Today, folder.Demonstration, opts.Layout)
	})
	if err != nil {
		return err
	}
	if len(bad) > 0 || diags.HasErrors() {
		return &badData{fmt.Sprintf("not all of what was named could be used: %d of %s read", len(listings), counted(len(files), "listing"))}
	}
	return nil
}

// dueJSON is the JSON form of a price to look up.
type dueJSON struct {
	Item     string           `json:"item"`
	Title    string           `json:"title"`
	Gain     *valuation.Money `json:"gain"` // null for a price that is missing
	Currency string           `json:"currency"`
	Listings int              `json:"listings"`
	Rows     int              `json:"rows"`
	Newest   *string          `json:"newest"` // null without rows
}

func dueToJSON(due []valuation.DuePrice, home string) []dueJSON {
	out := []dueJSON{}
	for _, d := range slices.Clone(due) {
		x := dueJSON{Item: d.Item, Title: d.Title, Currency: home, Listings: d.Listings, Rows: d.Rows}
		if !d.Unpriced {
			x.Gain = &d.Gain
		}
		if !d.Newest.IsZero() {
			day := d.Newest.Format(time.DateOnly)
			x.Newest = &day
		}
		out = append(out, x)
	}
	return out
}
