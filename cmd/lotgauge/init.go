package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/valuation/diag"
)

// initOptions is what the command line says of a starter folder.
type initOptions struct {
	*environment
	Dir string
}

const initLong = `Write a starter data folder: the built-in families, charge sheets, prices, rates
and settings, to be changed. DIR must not be there yet or be empty; nothing is
ever overwritten, and if anything fails nothing is left behind.

The makers and prices in it are invented, and whatever rests on them says so.
Replace them by your own before trusting a figure, and take demonstration out of
settings.toml then.`

func newInitCmd(e *environment, runF func(*initOptions) error) *cobra.Command {
	opts := &initOptions{environment: e}
	return &cobra.Command{
		Use:     "init DIR",
		Short:   "Write a starter data folder",
		Long:    initLong,
		Example: "  lotgauge init ~/trains/data\n  lotgauge check ~/trains/data",
		Args:    exactly(1, "name the folder to write"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("data") {
				return usagef("init writes to DIR and reads no data folder").hint("leave --data out")
			}
			opts.Dir = args[0]
			return runF(opts)
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveFilterDirs
		},
	}
}

func runInit(opts *initOptions) error {
	if opts.Dir == "" {
		return usagef("init: the name of the folder is empty")
	}
	finder := opts.finder()
	if err := load.Starter(opts.Dir, finder.Demo); err != nil {
		return err
	}
	name := diag.Clean(load.Short(opts.Dir))
	use := "lotgauge uses it with --data " + name + " or LOTGAUGE_DATA=" + name
	if abs, err := filepath.Abs(opts.Dir); err == nil && abs == finder.Place() {
		use = "lotgauge uses it from now on"
	}
	_, err := fmt.Fprintf(opts.Out, "%s: a starter data folder; %s.\nIts makers and prices are invented: replace them by your own, then take\ndemonstration out of its settings.toml.\n", name, use)
	return unwritten(err)
}
