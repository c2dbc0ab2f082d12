package main

import (
	"bytes"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// familiesOptions is what the command line says of the families to show.
type familiesOptions struct {
	*environment
	ID     string // the one to show; "" lists all
	Layout table.Options
}

const familiesLong = `List the families of the data folder. With an ID, show that one: its variants
with their years, how to tell them apart, what to inspect with the states that a
finding can name, what a test may show, and the grades and parts that a price
row can name.`

func newFamiliesCmd(e *environment, runF func(*familiesOptions) error) *cobra.Command {
	opts := &familiesOptions{environment: e}
	var scr screen
	cmd := &cobra.Command{
		Use:   "families [ID]",
		Short: "List the families, or show the checklist of one",
		Long:  familiesLong,
		Example: `  lotgauge families
  lotgauge families pellworth-ce4`,
		Args: between(0, 1, ""),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			if len(args) == 1 {
				opts.ID = args[0]
			}
			if opts.Layout, err = scr.layout(cmd, e); err != nil {
				return err
			}
			return runF(opts)
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			return e.familyIDs(args), cobra.ShellCompDirectiveNoFileComp
		},
	}
	addScreenFlags(cmd, &scr)
	return cmd
}

// familyIDs completes the first argument; errors are for the real run.
func (e *environment) familyIDs(args []string) []string {
	library, _, err := e.library()
	if err != nil || len(args) > 0 {
		return nil
	}
	ids, _ := library.Families()
	return ids
}

func runFamilies(opts *familiesOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	var b bytes.Buffer
	var diags diag.List
	if opts.ID == "" {
		diags, err = opts.list(&b, library, folder.Demonstration)
	} else {
		diags, err = opts.show(&b, library, folder.Demonstration)
	}
	if err != nil {
		return err
	}
	if _, err := opts.Out.Write(b.Bytes()); err != nil {
		return unwritten(err)
	}
	if err := diags.Err(); err != nil {
		return err
	}
	opts.warn(diags)
	return nil
}

// list prints the families that read well, and returns what is wrong with the
// others.
func (opts *familiesOptions) list(b *bytes.Buffer, library *valuation.Library, demonstration bool) (diag.List, error) {
	ids, all := library.Families()
	if all.HasErrors() {
		return all, nil
	}
	var families []*checklist.Family
	for _, id := range ids {
		f, diags := library.Family(id)
		all = append(all, diags...)
		if !diags.HasErrors() {
			families = append(families, f)
		}
	}
	return all, table.Families(b, families, demonstration, opts.Layout)
}

func (opts *familiesOptions) show(b *bytes.Buffer, library *valuation.Library, demonstration bool) (diag.List, error) {
	f, diags := library.Family(opts.ID)
	if diags.HasErrors() {
		return diags, nil
	}
	return diags, table.Family(b, f, demonstration, opts.Layout)
}
