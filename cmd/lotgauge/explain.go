package main

import (
	"io"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
)

// explainOptions is what the command line says of what to explain.
type explainOptions struct {
	*environment
	Listing string
	Subject string // a point, or valuation.VariantSubject
	JSON    bool
	Engine  valuation.Options
	Layout  table.Options
}

const explainLong = `Explain what is believed of one inspection point: the usual odds of each of its
states, the factor by which each finding multiplied them, and the odds now,
which are the product; then the rows that the prices of its parts rest on.

LISTING is as for appraise; POINT is the id of a point as lotgauge families ID
lists them, or variant for the catalogue number and the prices of sound ones.`

func newExplainCmd(e *environment, runF func(*explainOptions) error) *cobra.Command {
	opts := &explainOptions{environment: e}
	var scr screen
	cmd := &cobra.Command{
		Use:   "explain LISTING POINT",
		Short: "Show what moved the odds of one point, and what its prices rest on",
		Long:  explainLong,
		Example: `  lotgauge explain loft-find.toml pantograph-front
  lotgauge explain loft-find.toml variant
  lotgauge explain --json loft-find.toml pantograph-front`,
		Args: exactly(2, "name a listing file and a point, or variant"),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			opts.Listing, opts.Subject = args[0], args[1]
			if opts.Layout, err = e.settle(cmd, &opts.Engine, &scr); err != nil {
				return err
			}
			return runF(opts)
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 {
				return listingFiles(nil, nil, "")
			}
			return e.subjects(args), cobra.ShellCompDirectiveNoFileComp
		},
	}
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print the explanation as JSON")
	addEngineFlags(cmd, &opts.Engine)
	addScreenFlags(cmd, &scr)
	return cmd
}

// subjects completes the second argument; errors are for the real run.
func (e *environment) subjects(args []string) []string {
	quiet := *e
	quiet.Err = io.Discard
	library, _, err := quiet.library()
	if err != nil || len(args) != 1 || args[0] == "-" {
		return nil
	}
	listing, err := quiet.listing(library, args[0])
	if err != nil {
		return nil
	}
	f, diags := library.Family(listing.Family)
	if diags.HasErrors() {
		return nil
	}
	out := []string{valuation.VariantSubject}
	for i := range f.Points {
		out = append(out, f.Points[i].ID)
	}
	return out
}

func runExplain(opts *explainOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	listing, err := opts.listing(library, opts.Listing)
	if err != nil {
		return err
	}
	if err := opts.aboutVariant(library, listing.Family); err != nil {
		return err
	}
	x, diags := library.Explain(listing, opts.Subject, opts.Engine)
	if err := diags.Err(); err != nil {
		return err
	}
	opts.warn(diags)
	family, _ := library.Family(listing.Family) // it has been read for the explanation
	guides := guidesOf(family, x)
	return opts.answer(opts.JSON, folder.Demonstration, func(w io.Writer) error {
		return writeExplanation(w, listing, x, guides, folder.Demonstration)
	}, func(w io.Writer) error {
		return table.Explanation(w, listing.Title, x, guides, folder.Demonstration, opts.Layout)
	})
}

// aboutVariant is the error of a subject that is no point, but a feature or a
// catalogue number of the family: what moved it is shown under another name.
func (opts *explainOptions) aboutVariant(library *valuation.Library, family string) error {
	f, diags := library.Family(family)
	if diags.HasErrors() || f.PointIndex(opts.Subject) >= 0 {
		return nil // whatever is wrong is found again
	}
	what := "a catalogue number"
	switch {
	case f.FeatureIndex(opts.Subject) >= 0:
		what = "a feature"
	case f.VariantIndex(opts.Subject) < 0:
		return nil
	}
	return usagef("%q is %s of %s, not a point", opts.Subject, what, f.ID).
		hint("lotgauge explain %s %s shows what moved the catalogue numbers", load.Short(opts.Listing), valuation.VariantSubject)
}

// guidesOf are the guide prices of what an explanation is about.
func guidesOf(f *checklist.Family, x *valuation.Explanation) table.Guide {
	guides := table.Guide{}
	for i := range x.Parts {
		if part := f.PartIndex(x.Parts[i].ID); part >= 0 && f.Parts[part].Guide != nil {
			guides[x.Parts[i].ID] = f.Parts[part].Guide.String()
		}
	}
	for i := range x.Models {
		if v := f.VariantIndex(x.Models[i].ID); v >= 0 && f.Variants[v].Guide != nil {
			guides[x.Models[i].ID] = f.Variants[v].Guide.String()
		}
	}
	return guides
}
