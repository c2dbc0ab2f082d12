package main

import (
	"fmt"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"lotgauge/valuation/diag"
)

// run runs the command line and returns the exit code. It is the whole program
// but for the process around it.
func run(args []string, s streams) int {
	s.Err = wrapping(s)
	root := newRootCmd(s)
	root.SetArgs(args)
	return complain(s.Err, root.Execute())
}

const rootLong = `Lotgauge holds a second-hand lot against the inspection checklist of its
family and says where to stop bidding, how sure that is, and which one question
or check would change it most.

It reads a data folder: checklists (families/*.toml), charge sheets
(sheets/*.toml), prices seen (prices.csv), exchange rates (rates.csv) and
settings.toml. The folder is the one that --data names, else the one that
LOTGAUGE_DATA names, else%s;
where there is none, a built-in demonstration folder with invented makers and
prices, and the output says so.

Exit codes:
  0  done
  1  failed: the system refused to read or write, or no figure can be given
  2  a mistake in the command line or in the data; also a file or folder that is
     not there, or stands in the place of the other`

// usualPlace is the data folder in the usual place of this system, as the help
// names it: on a line of its own.
func usualPlace(dir string) string {
	if dir == "" {
		return "\n  none, since the environment does not say where your data are"
	}
	return "\n  " + diag.Clean(dir)
}

func newRootCmd(s streams) *cobra.Command {
	e := &environment{streams: s}
	cmd := &cobra.Command{
		Use:   "lotgauge",
		Short: "What a second-hand model locomotive is worth, and where to stop bidding",
		Long:  fmt.Sprintf(rootLong, usualPlace(e.finder().Place())),
		Example: `  lotgauge appraise loft-find.toml
  lotgauge appraise listings/
  lotgauge explain loft-find.toml pantograph-front
  lotgauge identify pellworth-ce4 roof=late
  lotgauge check ~/trains/data`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(cmd, args[0])
			}
			return cmd.Help()
		},
		PersistentPreRunE: func(cmd *cobra.Command, _ []string) error {
			if cmd.Flags().Changed("data") && e.data == "" {
				return usagef("--data names no folder").hint("leave it out for the usual one")
			}
			return nil
		},
		SilenceErrors:     true, // complain prints them
		SilenceUsage:      true,
		DisableAutoGenTag: true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
	}
	cmd.SetIn(s.In)
	cmd.SetOut(s.Out)
	cmd.SetErr(s.Err)
	cmd.SetFlagErrorFunc(flagError)
	cmd.PersistentFlags().StringVar(&e.data, "data", "", "use the data folder `DIR`")
	cmd.PersistentFlags().BoolP("help", "h", false, "print this help")
	cmd.Flags().Bool("version", false, "print the version that was built")
	cmd.Version = version(debug.ReadBuildInfo())
	cmd.SetVersionTemplate("lotgauge {{.Version}}\n")
	if err := cmd.MarkPersistentFlagDirname("data"); err != nil {
		panic(err) // the flag is defined above
	}
	cmd.AddCommand(
		newAppraiseCmd(e, runAppraise), newExplainCmd(e, runExplain), newIdentifyCmd(e, runIdentify), newCheckCmd(e, runCheck), newFamiliesCmd(e, runFamilies),
		newPricesCmd(e), newRatesCmd(e),
		newInspectCmd(e, runInspect), newSheetCmd(e, runSheet),
		newInitCmd(e, runInit), newCompletionCmd(e))
	cmd.SetHelpCommand(newHelpCmd())
	return cmd
}

// unknownCommand names the command that was meant, if one is near.
func unknownCommand(cmd *cobra.Command, name string) error {
	var known []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			known = append(known, c.Name())
		}
	}
	err := usagef("unknown command %q", name)
	if near, ok := diag.Nearest(name, known); ok {
		return err.hint("did you mean %s %s?", cmd.CommandPath(), near)
	}
	return err.hint("the commands are %s", strings.Join(known, ", "))
}

// flagError turns what the flag library says into a usageError.
func flagError(cmd *cobra.Command, err error) error {
	switch e := err.(type) {
	case *pflag.NotExistError:
		return unknownFlag(cmd, e)
	case *pflag.ValueRequiredError:
		return usagef("--%s needs a value", e.GetFlag().Name).hint("%s", flagHint(e.GetFlag())).hint("%s", helpHint(cmd))
	case *pflag.InvalidValueError:
		return usagef("--%s %q: not a %s", e.GetFlag().Name, e.GetValue(), valueKind(e.GetFlag())).
			hint("%s", flagHint(e.GetFlag())).hint("%s", helpHint(cmd))
	}
	return usagef("%v", err).hint("%s", helpHint(cmd))
}

func unknownFlag(cmd *cobra.Command, e *pflag.NotExistError) error {
	name := "--" + e.GetSpecifiedName()
	if short := e.GetSpecifiedShortnames(); short != "" {
		return usagef("unknown flag -%s", e.GetSpecifiedName()).hint("%s", helpHint(cmd))
	}
	var known []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, f.Name) })
	err := usagef("unknown flag %s", name)
	if near, ok := diag.Nearest(e.GetSpecifiedName(), known); ok {
		return err.hint("did you mean --%s?", near)
	}
	return err.hint("%s", helpHint(cmd))
}

// flagHint says what a flag is for.
func flagHint(f *pflag.Flag) string {
	value, usage := pflag.UnquoteUsage(f)
	return fmt.Sprintf("--%s %s: %s", f.Name, value, usage)
}

// valueKind says what a flag's value has to be.
func valueKind(f *pflag.Flag) string {
	switch f.Value.Type() {
	case "int":
		return "whole number"
	case "uint64":
		return "whole number from 0"
	case "bool":
		return "yes or no (true, false)"
	}
	return f.Value.Type()
}

func helpHint(cmd *cobra.Command) string {
	return cmd.CommandPath() + " --help says how it is used"
}
