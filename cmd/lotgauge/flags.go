package main

import (
	"math"
	"strconv"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// screen are the flags of commands that print tables.
type screen struct {
	width int
	color string
}

const (
	pipedWidth = 80
	mostWidth  = 1000
)

// colors are the values of --color.
var colors = []string{"auto", "always", "never"}

// addScreenFlags defines --width and --color.
func addScreenFlags(cmd *cobra.Command, s *screen) {
	cmd.Flags().IntVar(&s.width, "width", 0, "lines of `N` columns, from 40 (default: the terminal's, else COLUMNS, else 80)")
	cmd.Flags().StringVar(&s.color, "color", "auto", "use colours `WHEN`: auto, always or never; auto heeds NO_COLOR")
	completeWords(cmd, "color", colors)
}

// layout resolves the flags against the terminal.
func (s *screen) layout(cmd *cobra.Command, e *environment) (table.Options, error) {
	o := table.Options{Width: pipedWidth}
	switch {
	case cmd.Flags().Changed("width"):
		if s.width < table.MinWidth || s.width > mostWidth {
			return o, usagef("--width %d: expected %d to %d columns", s.width, table.MinWidth, mostWidth)
		}
		o.Width = s.width
	case e.Columns > 0:
		o.Width = max(e.Columns, table.MinWidth)
	default:
		if n, err := strconv.Atoi(e.Getenv("COLUMNS")); err == nil && n > 0 {
			o.Width = min(max(n, table.MinWidth), mostWidth)
		}
	}
	switch s.color {
	case "auto":
		o.Colour = e.Terminal && e.Getenv("NO_COLOR") == "" && e.Getenv("TERM") != "dumb"
	case "always":
		o.Colour = true
	case "never":
	default:
		err := usagef("--color %q: expected auto, always or never", s.color)
		if near, ok := diag.Nearest(s.color, colors); ok {
			err.hint("did you mean --color %s?", near)
		}
		return o, err
	}
	return o, nil
}

// The bounds of --draws.
const (
	leastDraws = 100
	mostDraws  = 1_000_000
)

// addEngineFlags defines --seed and --draws.
func addEngineFlags(cmd *cobra.Command, o *valuation.Options) {
	cmd.Flags().Uint64Var(&o.Seed, "seed", 0, "draw with the seed `N` (default: as the settings say)")
	cmd.Flags().IntVar(&o.Draws, "draws", 0, "draw `N` times, 100 to 1000000 (default: as the settings say)")
}

// settle completes what the flags say of the engine, and gives the layout.
func (e *environment) settle(cmd *cobra.Command, o *valuation.Options, s *screen) (table.Options, error) {
	o.SeedSet = cmd.Flags().Changed("seed")
	o.Today = e.today()
	if d := o.Draws; cmd.Flags().Changed("draws") && (d < leastDraws || d > mostDraws) {
		return table.Options{}, usagef("--draws %d: expected %d to %d", d, leastDraws, mostDraws)
	}
	return s.layout(cmd, e)
}

// listingFiles completes the names of listings.
func listingFiles(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
}

// completeWords completes a flag's value.
func completeWords(cmd *cobra.Command, flag string, words []string) {
	err := cmd.RegisterFlagCompletionFunc(flag, func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return words, cobra.ShellCompDirectiveNoFileComp
	})
	if err != nil {
		panic(err) // the flag is defined by the caller
	}
}

// exactly accepts n arguments; what says what is missing.
func exactly(n int, what string) cobra.PositionalArgs {
	return between(n, n, what)
}

// atLeast accepts n arguments or more.
func atLeast(n int, what string) cobra.PositionalArgs { return between(n, math.MaxInt, what) }

// between accepts least to most arguments.
func between(least, most int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return usagef("%s: %s", cmd.CommandPath(), what).hint("%s", helpHint(cmd))
		case len(args) > most:
			return usagef("%s: one argument too many: %s", cmd.CommandPath(), args[most]).hint("usage: %s", cmd.UseLine())
		}
		return nil
	}
}
