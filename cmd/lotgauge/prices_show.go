package main

import (
	"bytes"
	"io"
	"time"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/page"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// pricesShowOptions is what the command line says of a price to show.
type pricesShowOptions struct {
	*environment
	Item   string
	On     time.Time
	JSON   bool
	HTML   string // file to write a page to, "-" for standard output, "" for none
	Layout table.Options
}

const pricesShowLong = `Show what is known of the price of one item: what one brings and costs today and
how sure that is, whether the price moves, how hard one is to find, the prices
seen over time, and each row of the table with what was done to it: converted,
divided by the factors of its grade and faults, weighed, or set aside.

ITEM is a part, or a model as family/variant.`

func newPricesShowCmd(e *environment, runF func(*pricesShowOptions) error) *cobra.Command {
	opts := &pricesShowOptions{environment: e}
	var scr screen
	var on dayFlag
	cmd := &cobra.Command{
		Use:   "show ITEM",
		Short: "Show what is known of the price of one item",
		Long:  pricesShowLong,
		Example: `  lotgauge prices show tyre
  lotgauge prices show --full pellworth-ce4/6043
  lotgauge prices show --html 6043.html pellworth-ce4/6043`,
		Args: exactly(1, "name an item: a part, or family/variant"),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			opts.Item = args[0]
			if cmd.Flags().Changed("html") && opts.HTML == "" {
				return usagef("--html names no file").hint("--html - writes the page to standard output")
			}
			if opts.JSON && opts.HTML != "" {
				return usagef("--json and --html are two forms of one answer").hint("ask for one of them")
			}
			if opts.On, err = on.day(e.today()); err != nil {
				return err
			}
			full := opts.Layout.Full
			if opts.Layout, err = scr.layout(cmd, e); err != nil {
				return err
			}
			opts.Layout.Full = full
			return runF(opts)
		},
		ValidArgsFunction: e.itemNames,
	}
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print it as JSON")
	cmd.Flags().StringVar(&opts.HTML, "html", "", "write a page to `FILE`, - for standard output")
	cmd.Flags().BoolVar(&opts.Layout.Full, "full", false, "print all rows, whatever the width")
	on.add(cmd)
	addScreenFlags(cmd, &scr)
	return cmd
}

func runPricesShow(opts *pricesShowOptions) error {
	library, _, err := opts.library()
	if err != nil {
		return err
	}
	r, diags := library.Price(opts.Item, opts.On)
	if err := diags.Err(); err != nil {
		if list := diags.Sorted(); len(list) == 1 && list[0].Pos.File == "" {
			return misuse(err) // the item is not known
		}
		return err
	}
	opts.warn(diags)
	if opts.HTML != "" {
		return opts.page(r)
	}
	return opts.answer(opts.JSON, r.Demonstration, r.WriteJSON, func(w io.Writer) error {
		return table.Price(w, r, opts.Layout)
	})
}

// page writes the report as a page, which is made in memory first.
func (opts *pricesShowOptions) page(r *valuation.PriceReport) error {
	if r.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	var b bytes.Buffer
	if err := page.WritePrice(&b, r); err != nil {
		return err
	}
	file := opts.HTML
	if file == "-" {
		file = ""
	}
	return opts.deliverTo(file, b.Bytes())
}
