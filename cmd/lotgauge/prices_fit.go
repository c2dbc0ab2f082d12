package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// pricesFitOptions is what the command line says of factors to fit.
type pricesFitOptions struct {
	*environment
	Family string
	On     time.Time
	JSON   bool
	Write  bool
	Yes    bool
	Wait   time.Duration
	Layout table.Options
}

const pricesFitLong = `Fit the factors of grades and of what was lacking to your own rows of all models
of a family, and print them beside those of its file, each with the range that
holds it in 90 of 100 cases. Nothing is written.

With --write the factors that the rows speak against, whose range leaves out
what the file says, are put into the family's file, after they have been shown
and you have agreed; --yes agrees beforehand. All else in the file stays as it
is, and the former file is kept.`

func newPricesFitCmd(e *environment, runF func(*pricesFitOptions) error) *cobra.Command {
	opts := &pricesFitOptions{environment: e}
	var scr screen
	var on dayFlag
	cmd := &cobra.Command{
		Use:   "fit FAMILY",
		Short: "Hold the factors of a family against your own prices",
		Long:  pricesFitLong,
		Example: `  lotgauge prices fit pellworth-ce4
  lotgauge prices fit pellworth-ce4 --write`,
		Args: exactly(1, "name a family"),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			opts.Family = args[0]
			if opts.Yes && !opts.Write {
				return usagef("--yes agrees to --write, which is not there")
			}
			if opts.JSON && opts.Write {
				return usagef("--json only prints").hint("leave out --json or --write")
			}
			if opts.On, err = on.day(e.today()); err != nil {
				return err
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
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print the factors as JSON")
	cmd.Flags().BoolVar(&opts.Write, "write", false, "put the factors that the rows speak against into the family's file")
	cmd.Flags().BoolVar(&opts.Yes, "yes", false, "agree to --write without being asked")
	on.add(cmd)
	addWaitFlag(cmd, &opts.Wait)
	addScreenFlags(cmd, &scr)
	return cmd
}

func runPricesFit(opts *pricesFitOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	fit, diags := library.FitFamily(opts.Family, opts.On)
	if err := diags.Err(); err != nil {
		return err
	}
	opts.warn(diags)
	err = opts.answer(opts.JSON, folder.Demonstration, func(w io.Writer) error {
		return printJSON(w, fit)
	}, func(w io.Writer) error {
		return table.Fit(w, fit, folder.Demonstration, opts.Layout)
	})
	if err != nil || !opts.Write {
		return err
	}
	return opts.write(fit)
}

// write puts factors into the family's file, if the user agrees.
func (opts *pricesFitOptions) write(fit *valuation.FamilyFit) error {
	s, err := opts.store(opts.Wait)
	if err != nil {
		return err
	}
	file := "families/" + opts.Family + ".toml"
	var wanted []valuation.FittedFactor
	for _, x := range fit.Factors {
		if x.Against() && x.Kind != valuation.AskedFactor {
			wanted = append(wanted, x)
		}
	}
	if len(wanted) == 0 {
		opts.note("nothing to write: the rows speak against no factor of the file")
		return nil
	}
	for _, x := range wanted {
		opts.note(fmt.Sprintf("%s: %v in the file, %v by %s", x.Title, x.File, rounded(x.Fitted), counted(x.Rows, "row")))
	}
	if agreed, err := opts.agreed(len(wanted), s.name(file)); !agreed {
		return err
	}
	var set, left []string
	err = s.edit(file, func(text []byte) ([]byte, error) {
		var out []byte
		out, set, left = setFactors(s.name(file), text, wanted)
		if len(set) == 0 {
			return text, nil
		}
		return out, s.sound(opts.Family, file, out)
	})
	if err != nil {
		return err
	}
	for _, what := range left {
		opts.note("note: " + what + " has no factor in the file to put right: write it there yourself")
	}
	_, err = fmt.Fprintf(opts.Out, "%s: %s put right\n", s.name(file), counted(len(set), "factor"))
	return unwritten(err)
}

// agreed asks whether the file may be changed.
func (opts *pricesFitOptions) agreed(n int, name string) (bool, error) {
	if opts.Yes {
		return true, nil
	}
	if !interactive(opts.In) {
		return false, usagef("%s is not changed without a yes", name).hint("--yes agrees to it beforehand")
	}
	fmt.Fprintf(opts.Err, "Put %s into %s? [no] ", counted(n, "factor"), name)
	answer, _ := bufio.NewReader(opts.In).ReadString('\n') // no answer is a no
	switch strings.ToLower(strings.TrimSpace(answer)) {
	case "y", "yes":
		return true, nil
	}
	opts.note("nothing has been changed")
	return false, nil
}
