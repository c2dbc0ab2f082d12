package main

import (
	"strings"

	"github.com/spf13/cobra"

	"lotgauge/valuation/diag"
)

const completionLong = `Print a script that completes commands, flags and family names in a shell. The
examples load it for one session; put the line into the shell's start-up file to
have it always.`

// shells are those that a completion script can be written for.
var shells = []string{"bash", "zsh", "fish", "powershell"}

func newCompletionCmd(e *environment) *cobra.Command {
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "Print a completion script for bash, zsh, fish or powershell",
		Long:  completionLong,
		Example: `  source <(lotgauge completion bash)
  source <(lotgauge completion zsh)
  lotgauge completion fish | source
  lotgauge completion powershell | Out-String | Invoke-Expression`,
		ValidArgs: shells,
		Args:      exactly(1, "name the shell: "+strings.Join(shells, ", ")),
		RunE: func(cmd *cobra.Command, args []string) error {
			root := cmd.Root()
			switch args[0] {
			case "bash":
				return root.GenBashCompletionV2(e.Out, true)
			case "zsh":
				return root.GenZshCompletion(e.Out)
			case "fish":
				return root.GenFishCompletion(e.Out, true)
			case "powershell":
				return root.GenPowerShellCompletionWithDesc(e.Out)
			}
			return unknownShell(args[0])
		},
	}
}

func unknownShell(name string) error {
	err := usagef("no completion for %q", name)
	if near, ok := diag.Nearest(name, shells); ok {
		return err.hint("did you mean %s?", near)
	}
	return err.hint("there is one for %s", strings.Join(shells, ", "))
}
