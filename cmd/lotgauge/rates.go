package main

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/load/csvtext"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

const ratesLong = `Keep the exchange rates, rates.csv of the data folder. They are laid out as the
European Central Bank publishes its reference rates: a row a day, a column a
currency, units for 1 EUR.`

// newRatesCmd has the commands on the exchange rates.
func newRatesCmd(e *environment) *cobra.Command {
	return group(&cobra.Command{
		Use:     "rates",
		Short:   "Bring the exchange rates up to date",
		Long:    ratesLong,
		Example: "  lotgauge rates update eurofxref-hist.zip",
	}, newRatesUpdateCmd(e, runRatesUpdate))
}

// ratesUpdateOptions is what the command line says of new rates.
type ratesUpdateOptions struct {
	*environment
	File    string
	Replace bool
	JSON    bool
	Wait    time.Duration
}

const ratesUpdateLong = `Take the days of FILE over into the exchange rates. FILE is the European Central
Bank's history or file of one day as it is published: CSV, the same in a ZIP
archive, or XML. Download it from the bank; lotgauge itself uses no network.

Days and currencies that the table has not are added, rates that it has
otherwise are put right and named, all else stays as it is. With --replace
nothing of the former rates is left: do that once where they are the invented
ones of a starter folder.`

func newRatesUpdateCmd(e *environment, runF func(*ratesUpdateOptions) error) *cobra.Command {
	opts := &ratesUpdateOptions{environment: e}
	cmd := &cobra.Command{
		Use:   "update FILE",
		Short: "Take over the rates of a file of the European Central Bank",
		Long:  ratesUpdateLong,
		Example: `  lotgauge rates update eurofxref-hist.zip
  lotgauge rates update --replace eurofxref-hist.csv`,
		Args: exactly(1, "name the bank's file, or - for standard input"),
		RunE: func(_ *cobra.Command, args []string) error {
			opts.File = args[0]
			return runF(opts)
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return []string{"csv", "zip", "xml"}, cobra.ShellCompDirectiveFilterFileExt
		},
	}
	cmd.Flags().BoolVar(&opts.Replace, "replace", false, "leave nothing of the former rates")
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print what was new as JSON")
	addWaitFlag(cmd, &opts.Wait)
	return cmd
}

func runRatesUpdate(opts *ratesUpdateOptions) error {
	const most = 4 * prices.MaxRates // XML says the same at greater length
	text, name, err := load.Source(opts.File, opts.In, most, "a file of rates")
	if err != nil {
		return err
	}
	if text, err = csvtext.Published(name, text); err != nil {
		return err
	}
	s, err := opts.store(opts.Wait)
	if err != nil {
		return err
	}
	var m *csvtext.Merge
	err = s.edit(ratesFile, func(old []byte) ([]byte, error) {
		if opts.Replace || len(bytes.TrimSpace(old)) == 0 {
			old = nil
		}
		if m, err = csvtext.MergeRates(s.name(ratesFile), old, name, text); err != nil {
			return nil, err
		}
		return m.Text, nil
	})
	if err != nil {
		return err
	}
	return opts.report(s.name(ratesFile), m)
}

// report says what was new.
func (opts *ratesUpdateOptions) report(name string, m *csvtext.Merge) error {
	if opts.JSON {
		return unwritten(printJSON(escaper{opts.Out}, mergeToJSON(name, m)))
	}
	var b strings.Builder
	b.WriteString(name + ": ")
	switch n := len(m.New); n {
	case 0:
		b.WriteString("no new day")
	case 1:
		b.WriteString("1 new day, " + m.New[0].Format(time.DateOnly))
	default:
		fmt.Fprintf(&b, "%d new days, %s to %s", n, m.New[0].Format(time.DateOnly), m.New[n-1].Format(time.DateOnly))
	}
	if n := len(m.Currencies); n > 0 {
		b.WriteString("; " + countedCurrencies(n) + ": " + strings.Join(m.Currencies, " "))
	}
	if n := len(m.Changed); n > 0 {
		b.WriteString("; " + counted(n, "rate") + " put right")
	}
	b.WriteString("\n")
	for i, c := range m.Changed {
		if i == shownChanges {
			fmt.Fprintf(&b, "  and %d more; --json lists all\n", len(m.Changed)-i)
			break
		}
		fmt.Fprintf(&b, "  %s %s: %s, was %s\n", c.Day.Format(time.DateOnly), c.Currency, c.Is, orNone(c.Was))
	}
	for line := range strings.Lines(b.String()) {
		if _, err := fmt.Fprintln(opts.Out, diag.Clean(strings.TrimSuffix(line, "\n"))); err != nil {
			return unwritten(err)
		}
	}
	return nil
}

// shownChanges is how many rates that were put right are named.
const shownChanges = 10

func countedCurrencies(n int) string {
	if n == 1 {
		return "1 new currency"
	}
	return fmt.Sprintf("%d new currencies", n)
}

func orNone(rate string) string {
	if rate == "" {
		return "none"
	}
	return rate
}

// mergeJSON is the JSON form of what was new.
type mergeJSON struct {
	File       string       `json:"file"`
	NewDays    []string     `json:"new_days"`
	Currencies []string     `json:"new_currencies"`
	Changed    []changeJSON `json:"changed"`
}

type changeJSON struct {
	Date     string `json:"date"`
	Currency string `json:"currency"`
	Was      string `json:"was"` // "" for none
	Is       string `json:"is"`
}

func mergeToJSON(name string, m *csvtext.Merge) mergeJSON {
	out := mergeJSON{File: name, NewDays: []string{}, Currencies: append([]string{}, m.Currencies...), Changed: []changeJSON{}}
	for _, day := range m.New {
		out.NewDays = append(out.NewDays, day.Format(time.DateOnly))
	}
	for _, c := range m.Changed {
		out.Changed = append(out.Changed, changeJSON{c.Day.Format(time.DateOnly), c.Currency, c.Was, c.Is})
	}
	return out
}
