package main

import (
	"fmt"
	"io"
	"math"

	"github.com/spf13/cobra"

	"lotgauge/checklists"
	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/pricedata"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// An environment is what all commands share: the streams and the global flags.
type environment struct {
	streams
	data string // --data
}

func (e *environment) finder() load.Finder {
	return load.Finder{Getenv: e.Getenv, Demo: load.Join(checklists.Files, pricedata.Files)}
}

// library opens the data folder. Nothing of it is read yet.
func (e *environment) library() (*valuation.Library, load.Folder, error) {
	folder, err := e.finder().Find(e.data)
	if err != nil {
		return nil, folder, err
	}
	name := folder.Name
	if name == "." {
		name = "" // messages then say settings.toml, not ./settings.toml
	}
	return valuation.Open(folder.FS, name, folder.Demonstration), folder, nil
}

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
	cmd.Flags().IntVar(&s.width, "width", 0, "lines of `N` columns, from 40 (default: the terminal's, else 80)")
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

// engine completes what the flags say of the engine.
func (e *environment) engine(cmd *cobra.Command, o *valuation.Options) error {
	o.SeedSet = cmd.Flags().Changed("seed")
	o.Today = e.Now()
	if d := o.Draws; cmd.Flags().Changed("draws") && (d < leastDraws || d > mostDraws) {
		return usagef("--draws %d: expected %d to %d", d, leastDraws, mostDraws)
	}
	return nil
}

// listing reads a listing; what is doubtful in it is printed.
func (e *environment) listing(path string) (*valuation.Listing, error) {
	in, name, err := load.Listing(path, e.In)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	listing, diags := valuation.ReadListing(name, in)
	if err := diags.Err(); err != nil {
		return nil, err
	}
	e.warn(diags)
	return listing, nil
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

// deliverTo writes a whole result to a file in one step, or with "" to standard
// output.
func (e *environment) deliverTo(file string, result []byte) error {
	if file == "" {
		_, err := e.Out.Write(result)
		return unwritten(err)
	}
	return load.Replace(file, func(w io.Writer) error {
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

// warn prints diagnostics that do not stop the work.
func (e *environment) warn(list diag.List) {
	if len(list) > 0 {
		_ = list.WriteText(e.Err, 0) // if that fails there is nowhere left to say so
	}
}

// note prints a line that is no result.
func (e *environment) note(s string) {
	fmt.Fprintln(e.Err, diag.Clean(s))
}
