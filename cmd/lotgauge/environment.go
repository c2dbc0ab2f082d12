package main

import (
	"fmt"

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
	err := cmd.RegisterFlagCompletionFunc("color", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return colors, cobra.ShellCompDirectiveNoFileComp
	})
	if err != nil {
		panic(err) // the flag is defined above
	}
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

// exactly accepts n arguments; what says what is missing.
func exactly(n int, what string) cobra.PositionalArgs {
	return between(n, n, what)
}

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
