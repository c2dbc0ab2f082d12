package main

import (
	"errors"

	"github.com/spf13/cobra"

	phonepage "lotgauge/cmd/lotgauge/field"
	"lotgauge/valuation"
)

// sheetOptions is what the command line says of sheets to take along.
type sheetOptions struct {
	*environment
	Families []string
	Paper    string // file of the sheet to print
	Phone    string // file of the page for a phone
	Serve    bool   // hand the page to a phone
	Address  string // to listen on
	Variant  string
	Buy      string
	Size     string
	Engine   valuation.Options
}

const sheetLong = `Make what to take along to a stall.

--paper FILE writes a sheet to print: what to mind, how to tell the catalogue
numbers apart, the checks with a box to tick and the figure to add for each
state, and at the top where to begin with nothing looked at and where to stop
with all sound. Each check stands where it does by what it adds to those above
it, and a line says from where on none pays for its time. Adding up is simpler
than the truth: the sheet says how far off it is, measured over simulated finds.

--phone FILE writes one page for a phone with the whole engine in it, for the
families that are named: it needs no network and asks for nothing. New finds are
bought by the charge sheet that --buy names until another is chosen; without it
by that of the last find, the first by that of the settings. There are two ways
of getting it onto the phone:

  As a file: send FILE to the phone by cable, mail or a memory card and open it
  in the browser there, not in the preview of a mail program. Phones differ in
  whether a file of their own may run scripts; where the page stays empty, take
  the other way.

  Over the local network: --serve hands the page over from this machine, until
  the phone has it. By itself it is to be seen on this machine alone; --address
  HOST:PORT, or :PORT for every network this machine is on, lets a phone in. The
  address to open holds a token that is good for this once. The page then keeps
  itself for offline use where the browser allows it, and otherwise offers to be
  saved. Nothing is encrypted on the way: use a network of your own.`

const sheetExample = `  lotgauge sheet pellworth-ce4 --paper ce4.html
  lotgauge sheet pellworth-ce4 --variant 6043 --size a5 --paper ce4.html
  lotgauge sheet pellworth-ce4 tarnside-r12 --phone stall.html --buy stall-cash
  lotgauge sheet pellworth-ce4 --serve --address :8080`

func newSheetCmd(e *environment, runF func(*sheetOptions) error) *cobra.Command {
	opts := &sheetOptions{environment: e}
	cmd := &cobra.Command{
		Use:     "sheet FAMILY... {--paper FILE | --phone FILE | --serve}",
		Short:   "Make a sheet or a phone page to take along to a stall",
		Long:    sheetLong,
		Example: sheetExample,
		Args:    atLeast(1, "name a family"),
		RunE: func(cmd *cobra.Command, args []string) error {
			opts.Families = args
			if err := opts.check(cmd); err != nil {
				return err
			}
			if _, err := e.settle(cmd, &opts.Engine, &screen{color: "never"}); err != nil {
				return err
			}
			return runF(opts)
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return e.familyIDs(nil), cobra.ShellCompDirectiveNoFileComp
		},
	}
	f := cmd.Flags()
	f.StringVar(&opts.Paper, "paper", "", "write a sheet to print to `FILE`")
	f.StringVar(&opts.Phone, "phone", "", "write a page for a phone to `FILE`")
	f.BoolVar(&opts.Serve, "serve", false, "hand the page for a phone over the network")
	f.StringVar(&opts.Address, "address", "", "serve on `HOST:PORT` (default: to this machine alone)")
	f.StringVar(&opts.Variant, "variant", "", "the catalogue number is `ID`, on paper")
	f.StringVar(&opts.Buy, "buy", "", "buy by `SHEET`, on the phone new finds (default: as the settings say)")
	f.StringVar(&opts.Size, "size", "a4", "print on `SIZE`, a4 or a5")
	addEngineFlags(cmd, &opts.Engine)
	completeWords(cmd, "size", []string{"a4", "a5"})
	return cmd
}

// check sees to it that one thing is asked for, and that the flags go with it.
func (opts *sheetOptions) check(cmd *cobra.Command) error {
	changed := cmd.Flags().Changed
	asked := 0
	for _, name := range []string{"paper", "phone", "serve"} {
		if changed(name) && (name != "serve" || opts.Serve) {
			asked++
		}
	}
	for _, name := range []string{"paper", "phone", "address", "variant", "buy", "size"} {
		if f := cmd.Flags().Lookup(name); f.Changed && f.Value.String() == "" {
			return usagef("--%s is empty", name).hint("%s", flagHint(f))
		}
	}
	switch {
	case asked == 0:
		return usagef("%s: --paper FILE, --phone FILE or --serve?", cmd.CommandPath()).hint("%s", helpHint(cmd))
	case asked > 1:
		return usagef("--paper, --phone and --serve: one of them at a time")
	case changed("address") && !opts.Serve:
		return usagef("--address goes with --serve")
	case opts.Size != "a4" && opts.Size != "a5":
		return usagef("--size %q: expected a4 or a5", opts.Size)
	case opts.Paper != "" && len(opts.Families) > 1:
		return usagef("--paper is for one family, not for %d", len(opts.Families)).hint("write one sheet a family")
	}
	return opts.paperOnly(changed)
}

// paperOnly is the error of a flag that goes with paper alone.
func (opts *sheetOptions) paperOnly(changed func(string) bool) error {
	for _, name := range []string{"variant", "size", "seed", "draws"} {
		if opts.Paper == "" && changed(name) {
			return usagef("--%s goes with --paper", name).hint("on the phone it is chosen there, or is as the settings say")
		}
	}
	return nil
}

func runSheet(opts *sheetOptions) error {
	switch {
	case opts.Paper != "":
		return opts.paper()
	case opts.Serve:
		return opts.serve()
	}
	return opts.phone()
}

// unavailable turns the error of a page without an engine into one with hints.
func unavailable(err error) error {
	var none *phonepage.NoEngine
	if errors.As(err, &none) {
		return &refusal{what: none.Error(), hints: none.Hints}
	}
	return err
}
