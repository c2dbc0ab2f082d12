package main

import (
	"context"
	"errors"
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// inspectOptions is what the command line says of an inspection.
type inspectOptions struct {
	*environment
	What    string // a listing file or a family; "" where Resume says it
	Ask     string // price asked, "" for none
	Buy     string // buying sheet, "" for that of the listing or the settings
	Answers string // file of answers, "" to ask somebody
	Resume  string // file of an inspection to go on with
	Output  string // file to write to, "" for the usual one
	Track   bool
	Engine  valuation.Options
	Layout  table.Options
}

const inspectLong = `Inspect a model at a stall, one check at a time. The next check is always the
one that brings most: what knowing it is worth, less the minutes it takes. It
says how to look; one key answers; then it says where to stop now. When looking
further no longer pays it says so, and lets you go on.

FAMILY begins with a model that nothing is known of; LISTING is a listing file,
and what it has found counts. After every answer what was found so far is in
the file: the listing itself, or the one that -o names, or for a family
FAMILY-DATE.toml. Ctrl-C loses nothing. lotgauge inspect with that file, or
--resume, goes on where it was left, and lotgauge appraise reads it.

Keys: a digit or letter for what is seen, and
  ?  cannot tell       s  skip for now      b  back, take the last one back
  m  type a reading    :  type an answer    g  go on    q  stop

Typed whole, or one a line from a pipe or from --answers, an answer is also the
name of a state, a reading ("13.9 mm"), one of the words cannot tell, skip,
back, stop, go on, or CHECK=ANSWER for another check than the one asked, such
as tyres=worn. In a file of answers # begins a remark, and an answer that is
none is an error. A newer answer to a check takes the place of the older one.
At a keyboard Escape leaves the line that : or m begins.

Evidence is what hand and eye can tell; --track adds what a test track can, on
your own tested supply. Nothing is opened without the seller's leave.`

const inspectExample = `  lotgauge inspect pellworth-ce4 --ask 45 --buy stall-cash
  lotgauge inspect pellworth-ce4 --ask "45 EUR" --buy stall-cash -o find.toml
  lotgauge inspect --resume find.toml
  lotgauge inspect loft-find.toml --track
  lotgauge inspect pellworth-ce4 --answers answers.txt -o find.toml`

func newInspectCmd(e *environment, runF func(*inspectOptions) error) *cobra.Command {
	opts := &inspectOptions{environment: e}
	var scr screen
	cmd := &cobra.Command{
		Use:     "inspect LISTING|FAMILY",
		Short:   "Inspect a model at a stall, the check that pays most first",
		Long:    inspectLong,
		Example: inspectExample,
		Args:    between(0, 1, ""),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			if len(args) == 1 {
				opts.What = args[0]
			}
			if err := opts.check(cmd); err != nil {
				return err
			}
			if opts.Layout, err = e.settle(cmd, &opts.Engine, &scr); err != nil {
				return err
			}
			return runF(opts)
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			return e.familyIDs(args), cobra.ShellCompDirectiveDefault
		},
	}
	f := cmd.Flags()
	f.StringVar(&opts.Ask, "ask", "", "for sale at `PRICE`, such as 45 or \"45 EUR\"")
	f.StringVar(&opts.Buy, "buy", "", "buy by the charge sheet `SHEET` (default: as the settings say)")
	f.StringVar(&opts.Answers, "answers", "", "take the answers from `FILE`, one a line")
	f.StringVar(&opts.Resume, "resume", "", "go on with the inspection in `FILE`")
	f.StringVarP(&opts.Output, "output", "o", "", "keep what is found in `FILE`, a listing")
	f.BoolVar(&opts.Track, "track", false, "there is a test track and a supply of your own")
	addEngineFlags(cmd, &opts.Engine)
	addScreenFlags(cmd, &scr)
	return cmd
}

// check sees to it that the flags go together.
func (opts *inspectOptions) check(cmd *cobra.Command) error {
	for _, name := range []string{"ask", "buy", "answers", "resume", "output"} {
		if f := cmd.Flags().Lookup(name); f.Changed && f.Value.String() == "" {
			return usagef("--%s is empty", name).hint("%s", flagHint(f))
		}
	}
	switch {
	case opts.What != "" && opts.Resume != "":
		return usagef("%s and --resume %s: one of them at a time", opts.What, opts.Resume).
			hint("--resume alone goes on with that file")
	case opts.Resume != "":
		opts.What = opts.Resume
	case opts.What == "":
		return usagef("%s: name a family, or a listing file", cmd.CommandPath()).hint("%s", helpHint(cmd))
	}
	switch {
	case opts.Output == "-":
		return usagef("-o -: the screen is for the questions").hint("name a file for what is found")
	case opts.What == "-" && (opts.Output == "" || opts.Answers == "" || opts.Answers == "-"):
		return usagef("a listing from standard input needs -o and --answers").hint("the answers cannot come from there as well")
	}
	return nil
}

// errInterrupted is somebody pressing Ctrl-C, or the system ending the program.
var errInterrupted = errors.New("interrupted")

func runInspect(opts *inspectOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	d, err := opts.begin(library, folder.Demonstration)
	if err != nil {
		return err
	}
	if d.from, err = opts.source(); err != nil {
		return err
	}
	if err := d.record.save(d.n); err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	err = d.run(ctx)
	switch {
	case errors.Is(err, io.EOF):
		return d.end("No more answers.")
	case errors.Is(err, errInterrupted):
		return &refusal{what: "interrupted; what was found is in " + d.record.name(),
			hints: []string{"lotgauge inspect " + d.record.name() + " goes on"}}
	}
	return err
}
