package main

import (
	"github.com/spf13/cobra"
)

// forms are the flags that say in what form the answer is given, the first those
// that several listings can have too.
var forms = []string{"json", "csv", "full", "brief", "html", "ask"}

// checkForm sees to it that one form is asked for, and one that can be.
func (opts *appraiseOptions) checkForm(cmd *cobra.Command) error {
	form := ""
	for _, name := range forms {
		switch {
		case !cmd.Flags().Changed(name):
		case form != "":
			return usagef("--%s and --%s: one of them at a time", form, name)
		default:
			form = name
		}
	}
	switch {
	case form == "html" && opts.HTML == "":
		return usagef("--html names no file").hint("--html report.html, or - for standard output")
	case form == "html" && opts.Output != "":
		return usagef("--html and --output both name a file").hint("leave --output out")
	case form == "ask":
		return checkLanguage(opts.Ask)
	case cmd.Flags().Changed("output") && opts.Output == "":
		return usagef("--output names no file")
	}
	return nil
}

// single is the error of several listings in a form that is for one.
func (opts *appraiseOptions) single() error {
	name := ""
	switch {
	case opts.Full:
		name = "full"
	case opts.Brief:
		name = "brief"
	case opts.HTML != "":
		name = "html"
	case opts.Ask != "":
		name = "ask"
	default:
		return nil
	}
	return usagef("--%s is for one listing, not for a ranking of several", name).hint("name one file")
}
