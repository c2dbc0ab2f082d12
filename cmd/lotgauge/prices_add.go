package main

import (
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load/csvtext"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// pricesAddOptions is what the command line says of a price to add.
type pricesAddOptions struct {
	*environment
	Given   map[string]string // the answers given, by the names of fields
	NewItem bool
	JSON    bool
	Wait    time.Duration
}

const pricesAddLong = `Add one price to the price table. ITEM is a part, or a model as family/variant;
PRICE has its currency, "34 EUR". It is the price of the whole sale, --qty
pieces of it, without postage.

Without further flags it was sold, today, one piece. A model is best given with
its --grade, and with what it was --lacking; without, it counts as a sound one
of the best grade. On a terminal you are asked for what is missing.

An item that no family knows is refused, with the nearest name, since a price
under a wrong name is a price lost; --new-item takes it all the same.`

const pricesAddExample = `  lotgauge prices add tyre "4.50 EUR" --qty 2 --source "swap meet"
  lotgauge prices add pellworth-ce4/6043 34 EUR --kind asked --grade good
  lotgauge prices add pellworth-ce4/6043 "95 GBP" --lacking box:missing
  lotgauge prices add                          # asks`

// addFlags are the flags that answer a field, with their help.
var addFlags = []struct{ name, usage string }{
	{"date", "it was seen on `DAY`, year-month-day (default: today)"},
	{"kind", "`KIND` is sold or asked (default: sold)"},
	{"grade", "of a model: the `ID` of its grade, such as good"},
	{"lacking", "of a model: each `POINT:STATE` that was not sound"},
	{"postage", "what was paid for postage, `MONEY` like \"3.50 EUR\""},
	{"qty", "the price was for `N` pieces (default: 1)"},
	{"source", "where it was seen, any `TEXT`"},
	{"note", "a `TEXT` for yourself"},
}

func newPricesAddCmd(e *environment, runF func(*pricesAddOptions) error) *cobra.Command {
	opts := &pricesAddOptions{environment: e, Given: map[string]string{}}
	flags := map[string]*string{}
	cmd := &cobra.Command{
		Use:     "add ITEM PRICE",
		Short:   "Add one price to the price table",
		Long:    pricesAddLong,
		Example: pricesAddExample,
		Args:    between(0, 3, ""),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				opts.Given["item"] = args[0]
			}
			if len(args) > 1 {
				opts.Given["price"] = strings.Join(args[1:], " ")
			}
			for name, value := range flags {
				if cmd.Flags().Changed(name) {
					opts.Given[name] = *value
				}
			}
			return runF(opts)
		},
		ValidArgsFunction: e.itemNames,
	}
	for _, f := range addFlags {
		flags[f.name] = cmd.Flags().String(f.name, "", f.usage)
	}
	cmd.Flags().BoolVar(&opts.NewItem, "new-item", false, "take an ITEM that no family knows yet")
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print what was added as JSON")
	addWaitFlag(cmd, &opts.Wait)
	completeWords(cmd, "kind", []string{"sold", "asked"})
	return cmd
}

func runPricesAdd(opts *pricesAddOptions) error {
	s, err := opts.store(opts.Wait)
	if err != nil {
		return err
	}
	a := &addition{library: s.library, today: opts.Now(), newItem: opts.NewItem}
	ask := questioner{in: opts.In, out: opts.Err, open: interactive(opts.In)}
	if err := a.fill(opts.Given, &ask); err != nil {
		return err
	}
	var line, same int
	err = s.edit(pricesFile, func(text []byte) ([]byte, error) {
		out, lines, err := csvtext.Append(s.name(pricesFile), text, []prices.Row{a.row})
		if err != nil {
			return nil, err
		}
		line = lines[0]
		same = csvtext.LineOf(text, lastLine(out))
		return out, nil
	})
	if err != nil {
		return err
	}
	opts.remarks(a, same)
	if opts.JSON {
		return unwritten(printJSON(escaper{opts.Out}, struct {
			File  string    `json:"file"`
			Added []rowJSON `json:"added"`
		}{s.name(pricesFile), []rowJSON{rowToJSON(line, a.row)}}))
	}
	_, err = fmt.Fprintf(opts.Out, "%s:%d: added %s\n", diag.Clean(s.name(pricesFile)), line, diag.Clean(rowText(a.row)))
	return unwritten(err)
}

// lastLine is the last line of a text that ends in a line end.
func lastLine(text []byte) []byte {
	trimmed := strings.TrimSuffix(string(text[max(0, len(text)-prices.MaxLine):]), "\n")
	return []byte(trimmed[strings.LastIndexByte(trimmed, '\n')+1:])
}

// remarks says what may be wanted to know of a row that was added.
func (opts *pricesAddOptions) remarks(a *addition, same int) {
	if same > 0 {
		opts.note(fmt.Sprintf("note: line %d says the same: is one sale there twice?", same))
	}
	if a.item != nil && a.item.Model() && a.row.Grade == "" {
		opts.note("note: no grade: it counts as one of grade " + a.item.Grades[len(a.item.Grades)-1])
	}
	if a.item == nil {
		opts.note("note: no family knows " + a.row.Item + " yet: no appraisal uses its price")
	}
	newVetter(a.library, a.today, true).remarks(opts.environment, []prices.Row{a.row})
}
