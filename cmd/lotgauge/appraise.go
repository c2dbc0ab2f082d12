package main

import (
	"bytes"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// appraiseOptions is what the command line says of an appraisal.
type appraiseOptions struct {
	*environment
	Listings []string // paths, "-" for standard input
	JSON     bool
	Output   string // file to write to, "" for standard output
	Engine   valuation.Options
	Layout   table.Options
}

const appraiseLong = `Appraise a lot: the bid at which to stop and the careful one with what they cost
in the end, how the figure comes about, what is wrong and what is not known, the
parts to buy, the ways out, and what to ask or check next.

LISTING is a TOML file that describes the lot and what was found, or - to read
one from standard input. If a price is missing, no bid is named: what can be
said is printed with the price to add, and the exit code is 1.`

const appraiseExample = `  lotgauge appraise loft-find.toml
  lotgauge appraise --json loft-find.toml
  lotgauge appraise --data ~/trains/data --width 100 -o report.txt lot.toml
  lotgauge appraise - < loft-find.toml`

// The bounds of --draws.
const (
	leastDraws = 100
	mostDraws  = 1_000_000
)

func newAppraiseCmd(e *environment, runF func(*appraiseOptions) error) *cobra.Command {
	opts := &appraiseOptions{environment: e}
	var scr screen
	cmd := &cobra.Command{
		Use:     "appraise LISTING",
		Short:   "Say what a lot is worth and where to stop bidding",
		Long:    appraiseLong,
		Example: appraiseExample,
		Args:    exactly(1, "name a listing file, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			opts.Listings = args
			opts.Engine.SeedSet = cmd.Flags().Changed("seed")
			opts.Engine.Today = e.Now()
			if d := opts.Engine.Draws; cmd.Flags().Changed("draws") && (d < leastDraws || d > mostDraws) {
				return usagef("--draws %d: expected %d to %d", d, leastDraws, mostDraws)
			}
			if opts.Layout, err = scr.layout(cmd, e); err != nil {
				return err
			}
			return runF(opts)
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
		},
	}
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print the appraisal as JSON")
	cmd.Flags().StringVarP(&opts.Output, "output", "o", "", "write to `FILE` instead of the screen, in one step")
	cmd.Flags().Uint64Var(&opts.Engine.Seed, "seed", 0, "draw with the seed `N` (default: as the settings say)")
	cmd.Flags().IntVar(&opts.Engine.Draws, "draws", 0, "draw `N` times, 100 to 1000000 (default: as the settings say)")
	addScreenFlags(cmd, &scr)
	return cmd
}

func runAppraise(opts *appraiseOptions) error {
	library, _, err := opts.library()
	if err != nil {
		return err
	}
	a, err := opts.appraise(library, opts.Listings[0])
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := opts.print(&b, a); err != nil {
		return err
	}
	if err := opts.deliver(b.Bytes()); err != nil {
		return err
	}
	return withoutFigure(a)
}

// appraise reads a listing and appraises it.
func (opts *appraiseOptions) appraise(library *valuation.Library, path string) (*valuation.Appraisal, error) {
	in, name, err := load.Listing(path, opts.In)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	listing, diags := valuation.ReadListing(name, in)
	if err := diags.Err(); err != nil {
		return nil, err
	}
	opts.warn(diags)
	a, diags := library.Appraise(listing, opts.Engine)
	if err := diags.Err(); err != nil {
		return nil, err
	}
	opts.warn(diags)
	return a, nil
}

// print renders the appraisal. With JSON, what the table says for people goes
// to standard error.
func (opts *appraiseOptions) print(w io.Writer, a *valuation.Appraisal) error {
	if !opts.JSON {
		return table.Appraisal(w, a, opts.Layout)
	}
	if a.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	opts.warn(a.Reading.Warnings)
	return a.WriteJSON(escaper{w})
}

// deliver writes the whole result where it is wanted.
func (opts *appraiseOptions) deliver(result []byte) error {
	if opts.Output == "" {
		_, err := opts.Out.Write(result)
		return unwritten(err)
	}
	return load.Replace(opts.Output, func(w io.Writer) error {
		_, err := w.Write(result)
		return err
	})
}

// unwritten says that a result could not be printed.
func unwritten(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("cannot write the result: %w", err)
}

// withoutFigure is the refusal that goes with an appraisal in which a price is
// missing, nil where none is.
func withoutFigure(a *valuation.Appraisal) error {
	if a.Reading.Verdict != valuation.Unpriceable {
		return nil
	}
	r := &refusal{what: "no figure can be given: " + counted(len(a.Unpriced), "price") + " missing"}
	for _, m := range a.Reading.Missing {
		r.hints = append(r.hints, "add to prices.csv: "+m.Row)
	}
	return r
}
