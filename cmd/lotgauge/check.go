package main

import (
	"encoding/json"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// checkOptions is what the command line says of a check.
type checkOptions struct {
	*environment
	JSON bool
}

const checkLong = `Prove a data folder sound: every file reads, every id and template resolves,
every part has a price or a guide, every rule can fire, every price row names
something known and can be converted. All that is wrong is reported at once,
each with its file and line; the exit code is then 2. Warnings alone leave it
at 0.

DIR is the data folder; without it the one that appraise would use is checked.`

const checkExample = `  lotgauge check
  lotgauge check ~/trains/data
  lotgauge check --json | jq '.[].file'`

func newCheckCmd(e *environment, runF func(*checkOptions) error) *cobra.Command {
	opts := &checkOptions{environment: e}
	cmd := &cobra.Command{
		Use:     "check [DIR]",
		Short:   "Prove a data folder sound, or list all that is wrong with it",
		Long:    checkLong,
		Example: checkExample,
		Args:    between(0, 1, ""),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				if cmd.Flags().Changed("data") {
					return usagef("two data folders: %s and --data %s", args[0], e.data).hint("name one of them")
				}
				e.data = args[0]
			}
			return runF(opts)
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return nil, cobra.ShellCompDirectiveFilterDirs
		},
	}
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print the list of what is wrong as JSON")
	return cmd
}

func runCheck(opts *checkOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	done, diags := library.Check()
	if folder.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	if opts.JSON {
		err = writeDiagnostics(opts.Out, diags)
	} else {
		err = writeCheck(opts.Out, folder.Name, done, diags)
	}
	if err != nil {
		return unwritten(err)
	}
	if errors := countErrors(diags); errors > 0 {
		return &badData{folder.Name + ": " + counted(errors, "error") + warnings(len(diags)-errors)}
	}
	return nil
}

func countErrors(list diag.List) int {
	n := 0
	for _, d := range list {
		if d.Severity != diag.Warning {
			n++
		}
	}
	return n
}

func warnings(n int) string {
	if n == 0 {
		return ""
	}
	return " and " + counted(n, "warning")
}

// writeCheck prints what is wrong, and what has been proved where nothing is.
func writeCheck(w io.Writer, name string, done valuation.Checked, diags diag.List) error {
	if err := diags.WriteText(w, 0); err != nil || diags.HasErrors() {
		return err
	}
	_, err := fmt.Fprintf(w, "%s is sound: %s, %s, %s%s\n", diag.Clean(name), counted(done.Families, "family"),
		counted(done.Sheets, "charge sheet"), counted(done.Rows, "price row"), warnings(len(diags)))
	return err
}

// diagnosticJSON is the JSON form of a diagnostic. Line and column count from 1
// and are left out where unknown.
type diagnosticJSON struct {
	Severity string `json:"severity"`
	File     string `json:"file"`
	Line     int    `json:"line,omitempty"`
	Column   int    `json:"column,omitempty"`
	Key      string `json:"key,omitempty"`
	Summary  string `json:"summary"`
	Expected string `json:"expected,omitempty"`
	Try      string `json:"try,omitempty"`
}

func writeDiagnostics(w io.Writer, list diag.List) error {
	out := []diagnosticJSON{}
	for _, d := range list {
		out = append(out, diagnosticJSON{
			Severity: d.Severity.String(), File: d.Pos.File, Line: d.Pos.Line, Column: d.Pos.Column,
			Key: d.Key, Summary: d.Summary, Expected: d.Expected, Try: d.Try,
		})
	}
	enc := json.NewEncoder(escaper{w})
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}
