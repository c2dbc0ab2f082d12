package main

import (
	"bytes"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// appraiseOptions is what the command line says of an appraisal.
type appraiseOptions struct {
	*environment
	Listings []string // paths of files and folders, "-" for standard input
	Full     bool
	Brief    bool
	JSON     bool
	CSV      bool
	HTML     string // file to write the page to
	Ask      string // language of the message to the seller
	Output   string // file to write to, "" for standard output
	Engine   valuation.Options
	Layout   table.Options
}

const appraiseLong = `Appraise a lot: the bid at which to stop and the careful one, how the figure
comes about, how sure it is, what to ask or check next, the parts to buy, the
ways out, what was found and what is not known. --full shows all of it, --brief
four lines.

LISTING is a TOML file that describes the lot and what was found, or - to read
one from standard input. If a price is missing, no bid is named: what can be
said is printed with the price to add, and the exit code is 1.

Several listings, or a FOLDER of them (the files NAME.toml in it), are ranked:
one row a listing, by what there is to gain on average at the price asked or, at
an auction, by bidding up to the stop; below them those to walk away from. A
listing that cannot be read is reported, the others are appraised, and the exit
code is 2.`

const appraiseExample = `  lotgauge appraise loft-find.toml
  lotgauge appraise --brief loft-find.toml
  lotgauge appraise --html report.html loft-find.toml
  lotgauge appraise --ask de loft-find.toml
  lotgauge appraise --json loft-find.toml
  lotgauge appraise --data ~/trains/data --width 100 -o report.txt lot.toml
  lotgauge appraise - < loft-find.toml
  lotgauge appraise listings/
  lotgauge appraise --csv -o ranking.csv listings/ loft-find.toml`

func newAppraiseCmd(e *environment, runF func(*appraiseOptions) error) *cobra.Command {
	opts := &appraiseOptions{environment: e}
	var scr screen
	cmd := &cobra.Command{
		Use:     "appraise LISTING|FOLDER...",
		Short:   "Say what a lot is worth and where to stop bidding; rank several",
		Long:    appraiseLong,
		Example: appraiseExample,
		Args:    atLeast(1, "name a listing file, a folder of them, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			opts.Listings = args
			if opts.Layout, err = e.settle(cmd, &opts.Engine, &scr); err != nil {
				return err
			}
			opts.Layout.Full = opts.Full
			if err := opts.checkForm(cmd); err != nil {
				return err
			}
			return runF(opts)
		},
		ValidArgsFunction: listingFiles,
	}
	f := cmd.Flags()
	f.BoolVar(&opts.Full, "full", false, "print all of it and what it rests on")
	f.BoolVar(&opts.Brief, "brief", false, "print the headline and three lines")
	f.BoolVar(&opts.JSON, "json", false, "print the appraisal as JSON; of several the ranking")
	f.BoolVar(&opts.CSV, "csv", false, "print the ranking as CSV, for a spreadsheet")
	f.StringVar(&opts.HTML, "html", "", "write a page that any browser shows to `FILE`, in one step")
	f.StringVar(&opts.Ask, "ask", "", "print a message to the seller in `LANG`: "+strings.Join(letterLanguages(), ", "))
	f.StringVarP(&opts.Output, "output", "o", "", "write to `FILE` instead of the screen, in one step")
	addEngineFlags(cmd, &opts.Engine)
	addScreenFlags(cmd, &scr)
	completeWords(cmd, "ask", letterLanguages())
	return cmd
}

func runAppraise(opts *appraiseOptions) error {
	files, several, bad := load.Listings(opts.Listings)
	if several {
		if err := opts.single(); err != nil {
			return err
		}
	}
	for _, output := range []string{opts.Output, opts.HTML} {
		if err := load.Overwrites(output, files); err != nil {
			return err
		}
	}
	if len(files) == 0 && len(bad) == 1 {
		return bad[0]
	}
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	if several || opts.CSV {
		return opts.rank(library, folder.Demonstration, files, bad)
	}
	return opts.one(library, files[0])
}

// one appraises one listing and prints it in the form asked for.
func (opts *appraiseOptions) one(library *valuation.Library, file string) error {
	a, err := opts.appraise(library, file)
	if err != nil {
		return err
	}
	if opts.HTML != "" {
		err = opts.page(a)
	} else {
		err = opts.show(a)
	}
	if err != nil {
		return err
	}
	return withoutFigure(a)
}

// show prints an appraisal where it is wanted.
func (opts *appraiseOptions) show(a *valuation.Appraisal) error {
	var b bytes.Buffer
	if err := opts.print(&b, a); err != nil {
		return err
	}
	return opts.deliver(b.Bytes())
}

// appraise reads a listing and appraises it.
func (opts *appraiseOptions) appraise(library *valuation.Library, path string) (*valuation.Appraisal, error) {
	listing, err := opts.listing(library, path)
	if err != nil {
		return nil, err
	}
	a, diags := library.Appraise(listing, opts.Engine)
	if err := diags.Err(); err != nil {
		return nil, err
	}
	opts.warn(diags)
	forShow(a)
	return a, nil
}

// print renders the appraisal. In a form that is not for the screen alone, what
// the table says for people goes to standard error.
func (opts *appraiseOptions) print(w io.Writer, a *valuation.Appraisal) error {
	switch {
	case opts.JSON:
		opts.aside(a)
		return a.WriteJSON(escaper{w})
	case opts.Brief:
		opts.aside(a)
		return table.Brief(w, a, opts.Layout)
	case opts.Ask != "":
		return opts.letter(w, a)
	}
	return table.Appraisal(w, a, opts.Layout)
}

// aside says on standard error that nothing is real and what is doubtful.
func (opts *appraiseOptions) aside(a *valuation.Appraisal) {
	if a.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	opts.warn(a.Reading.Warnings)
}

// deliver writes the whole result where it is wanted.
func (opts *appraiseOptions) deliver(result []byte) error {
	return opts.deliverTo(opts.Output, result)
}

// withoutFigure is the refusal that goes with an appraisal in which a price is
// missing, nil where none is.
func withoutFigure(a *valuation.Appraisal) error {
	if len(a.Unpriced) == 0 {
		return nil
	}
	r := &refusal{what: "no figure can be given: " + counted(len(a.Unpriced), "price") + " missing"}
	for _, m := range a.Reading.Missing {
		r.hints = append(r.hints, "add to prices.csv: "+m.Row)
	}
	return r
}
