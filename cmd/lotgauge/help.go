package main

import (
	"github.com/spf13/cobra"
)

// newHelpCmd prints the help of a command; an unknown one is a mistake like any
// other.
func newHelpCmd() *cobra.Command {
	return &cobra.Command{
		Use:     "help [COMMAND]",
		Short:   "Print the help of a command",
		Example: "  lotgauge help appraise",
		RunE: func(cmd *cobra.Command, args []string) error {
			about, rest, err := cmd.Root().Find(args)
			if err != nil {
				return err
			}
			if len(rest) > 0 {
				return unknownCommand(about, rest[0])
			}
			about.InitDefaultHelpFlag()
			return about.Help()
		},
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			var names []string
			if len(args) == 0 {
				for _, c := range cmd.Root().Commands() {
					if c.IsAvailableCommand() {
						names = append(names, c.Name())
					}
				}
			}
			return names, cobra.ShellCompDirectiveNoFileComp
		},
	}
}
