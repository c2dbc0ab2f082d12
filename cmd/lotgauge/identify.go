package main

import (
	"encoding/json"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// identifyOptions is what the command line says of a model to identify.
type identifyOptions struct {
	*environment
	Family  string // "" where the listing says it
	Seen    []valuation.Sighted
	Listing string // --listing
	JSON    bool
	Engine  valuation.Options
	Layout  table.Options
}

const identifyLong = `Say which catalogue numbers of a family a model may be, with their chances, and
which feature to look at next: the one that tells most, or with a listing the
one that is worth most money to know.

What has been seen in the hand is written FEATURE=OPTION, as lotgauge families
ID lists them. With --listing, what was found there counts too, and FAMILY may
be left out.`

func newIdentifyCmd(e *environment, runF func(*identifyOptions) error) *cobra.Command {
	opts := &identifyOptions{environment: e}
	var scr screen
	cmd := &cobra.Command{
		Use:   "identify FAMILY [FEATURE=OPTION...]",
		Short: "Say which catalogue number it may be, and what to look at next",
		Long:  identifyLong,
		Example: `  lotgauge identify pellworth-ce4
  lotgauge identify pellworth-ce4 roof=late livery=red
  lotgauge identify --listing loft-find.toml motor=can
  lotgauge identify --json pellworth-ce4 roof=late`,
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			if err := opts.take(cmd, args); err != nil {
				return err
			}
			if opts.Layout, err = e.settle(cmd, &opts.Engine, &scr); err != nil {
				return err
			}
			return runF(opts)
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			return e.sightable(args)
		},
	}
	cmd.Flags().StringVar(&opts.Listing, "listing", "", "count what the listing `FILE` says, and value features by it")
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print the chances as JSON")
	addEngineFlags(cmd, &opts.Engine)
	addScreenFlags(cmd, &scr)
	return cmd
}

// take reads the arguments.
func (opts *identifyOptions) take(cmd *cobra.Command, args []string) error {
	if len(args) > 0 && !strings.Contains(args[0], "=") {
		opts.Family, args = args[0], args[1:]
	}
	switch {
	case cmd.Flags().Changed("listing") && opts.Listing == "":
		return usagef("--listing names no file")
	case strings.HasSuffix(opts.Family, ".toml"):
		return usagef("%q is a file, not a family", opts.Family).hint("lotgauge identify --listing %s counts what the listing says", opts.Family)
	case opts.Family == "" && opts.Listing == "":
		return usagef("%s: name a family, or a listing with --listing", cmd.CommandPath()).hint("%s", helpHint(cmd))
	}
	named := map[string]bool{}
	for _, arg := range args {
		feature, option, ok := strings.Cut(arg, "=")
		switch {
		case !ok || feature == "" || option == "":
			return usagef("%q: expected FEATURE=OPTION, such as roof=late", arg).hint("usage: %s", cmd.UseLine())
		case named[feature]:
			return usagef("feature %q is named twice", feature).hint("a model left the factory with one option of it")
		}
		named[feature] = true
		opts.Seen = append(opts.Seen, valuation.Sighted{Feature: feature, Option: option})
	}
	return nil
}

// sightable completes the arguments: a family, then its features with their
// options. Errors are for the real run.
func (e *environment) sightable(args []string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return e.familyIDs(args), cobra.ShellCompDirectiveNoFileComp
	}
	library, _, err := e.library()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	f, diags := library.Family(args[0])
	if diags.HasErrors() {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var out []string
	for _, x := range f.Features {
		for _, option := range x.Options {
			out = append(out, x.ID+"="+option)
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

func runIdentify(opts *identifyOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	id, family, err := opts.identify(library)
	if err != nil {
		return err
	}
	return opts.answer(opts.JSON, folder.Demonstration, func(w io.Writer) error {
		return writeIdentification(w, id, folder.Demonstration)
	}, func(w io.Writer) error {
		return table.Identification(w, id, family, folder.Demonstration, opts.Layout)
	})
}

func (opts *identifyOptions) identify(library *valuation.Library) (*valuation.Identification, *checklist.Family, error) {
	var listing *valuation.Listing
	if opts.Listing != "" {
		var err error
		if listing, err = opts.listing(library, opts.Listing); err != nil {
			return nil, nil, err
		}
		switch opts.Family {
		case "":
			opts.Family = listing.Family
		case listing.Family:
		default:
			return nil, nil, usagef("%s is of family %q, not %q", listing.File, listing.Family, opts.Family).
				hint("leave the family out")
		}
	}
	family, diags := library.Family(opts.Family)
	if err := diags.Err(); err != nil {
		return nil, nil, err
	}
	if err := knownFeatures(family, opts.Seen); err != nil {
		return nil, nil, err
	}
	if listing == nil {
		id, diags := library.Identify(opts.Family, opts.Seen)
		if diags.HasErrors() {
			if err := neverMade(family, opts.Seen); err != nil {
				return nil, nil, err
			}
		}
		return id, family, opts.settled(diags)
	}
	id, diags := library.IdentifyListing(listing, opts.Seen, opts.Engine)
	return id, family, opts.settled(diags)
}

// settled is the error of what the engine says, if any; else it is printed.
func (opts *identifyOptions) settled(diags diag.List) error {
	if err := diags.Err(); err != nil {
		return err
	}
	opts.warn(diags)
	return nil
}

// identificationJSON is an identification as JSON.
type identificationJSON struct {
	Format        int  `json:"format"`
	Demonstration bool `json:"demonstration"`
	*valuation.Identification
}

func writeIdentification(w io.Writer, id *valuation.Identification, demonstration bool) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(identificationJSON{1, demonstration, id})
}
