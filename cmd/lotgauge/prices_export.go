package main

import (
	"cmp"
	"slices"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/load/csvtext"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation/prices"
)

// pricesExportOptions is what the command line says of an export.
type pricesExportOptions struct {
	*environment
	Items  []string // "" for all
	CSV    bool
	JSON   bool
	Output string
}

const pricesExportLong = `Print the rows of the price table, of all items or of those named, in the order
of the table: as CSV that a spreadsheet may open, or as JSON.

In the CSV, text that a spreadsheet would take for a formula, beginning with
= + - @, tab or return, has an apostrophe before it. lotgauge prices import
takes that off again, so what was exported reads back unchanged.`

func newPricesExportCmd(e *environment, runF func(*pricesExportOptions) error) *cobra.Command {
	opts := &pricesExportOptions{environment: e}
	cmd := &cobra.Command{
		Use:   "export [ITEM...]",
		Short: "Print rows of the price table, safe for spreadsheets",
		Long:  pricesExportLong,
		Example: `  lotgauge prices export -o prices-for-the-club.csv
  lotgauge prices export --json tyre lamp-black`,
		RunE: func(_ *cobra.Command, args []string) error {
			opts.Items = args
			if opts.CSV && opts.JSON {
				return usagef("--csv and --json are two forms of one answer").hint("ask for one of them")
			}
			return runF(opts)
		},
		ValidArgsFunction: func(cmd *cobra.Command, _ []string, s string) ([]string, cobra.ShellCompDirective) {
			return e.itemNames(cmd, nil, s)
		},
	}
	cmd.Flags().BoolVar(&opts.CSV, "csv", false, "print CSV, as without any flag")
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print JSON")
	cmd.Flags().StringVarP(&opts.Output, "output", "o", "", "write to `FILE` instead of the screen, in one step")
	return cmd
}

func runPricesExport(opts *pricesExportOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	known, diags := library.Prices()
	if known == nil {
		return diags
	}
	opts.warn(diags)
	items := opts.Items
	if len(items) == 0 {
		items = known.Items()
	}
	var rows []prices.Row
	for _, item := range items {
		of := known.Rows(item)
		if len(of) == 0 {
			opts.note("note: there is no row of " + item)
		}
		rows = append(rows, of...)
	}
	slices.SortStableFunc(rows, func(a, b prices.Row) int { return cmp.Compare(a.Line, b.Line) })
	if folder.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	return opts.print(rows, diags.HasErrors(), opts.own(folder))
}

// own are the files of the data folder that an export must not replace.
func (opts *pricesExportOptions) own(folder load.Folder) []string {
	if folder.Path == "" {
		return nil
	}
	return []string{folder.Path + "/" + pricesFile}
}

// print writes the rows in the form asked for.
func (opts *pricesExportOptions) print(rows []prices.Row, partial bool, own []string) error {
	if err := load.Overwrites(opts.Output, own); err != nil && opts.Output != "" {
		return usagef("%s is the price table itself", opts.Output).hint("name another file to write to")
	}
	text := csvtext.Export(rows)
	if opts.JSON {
		var err error
		if text, err = jsonOf(rowsToJSON(rows)); err != nil {
			return err
		}
	}
	if err := opts.deliverTo(opts.Output, text); err != nil {
		return err
	}
	if partial {
		return &badData{"rows that cannot be read were left out"}
	}
	return nil
}
