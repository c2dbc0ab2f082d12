package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/load/csvtext"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// pricesImportOptions is what the command line says of an import.
type pricesImportOptions struct {
	*environment
	File    string // "-" for standard input
	Map     string // "" for a file laid out as a price table
	DryRun  bool
	NewItem bool
	JSON    bool
	Wait    time.Duration
	Layout  table.Options
}

const pricesImportLong = `Add the rows of somebody else's CSV file, such as the export of a place of sale,
to the price table. MAP.toml says where what is found in it: separator,
decimals, dates, columns, and the items by patterns. README.md shows one.

Rows that the table has already are recognised by what they say, their note
apart, and are not added again; so an export that has grown can be imported
again. Rows that cannot be read, or that no estimate could use, are listed with
their line and the reason, the others are added, and the exit code is 2.

Without --map, FILE is laid out as a price table itself, as lotgauge prices
export writes it: what that has guarded from spreadsheets comes back unchanged.`

const pricesImportExample = `  lotgauge prices import --dry-run --map saleroom.toml bought-2026.csv
  lotgauge prices import --map saleroom.toml bought-2026.csv
  lotgauge prices import --json - < export.csv`

func newPricesImportCmd(e *environment, runF func(*pricesImportOptions) error) *cobra.Command {
	opts := &pricesImportOptions{environment: e}
	var scr screen
	cmd := &cobra.Command{
		Use:     "import FILE",
		Short:   "Add the rows of another CSV file, each once",
		Long:    pricesImportLong,
		Example: pricesImportExample,
		Args:    exactly(1, "name a CSV file, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			opts.File = args[0]
			if cmd.Flags().Changed("map") && opts.Map == "" {
				return usagef("--map names no file").hint("leave it out for a file laid out as a price table")
			}
			if opts.Layout, err = scr.layout(cmd, e); err != nil {
				return err
			}
			return runF(opts)
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return []string{"csv"}, cobra.ShellCompDirectiveFilterFileExt
		},
	}
	cmd.Flags().StringVar(&opts.Map, "map", "", "read FILE by the import map `MAP.toml`")
	cmd.Flags().BoolVar(&opts.DryRun, "dry-run", false, "print what would be added, and add nothing")
	cmd.Flags().BoolVar(&opts.NewItem, "new-item", false, "take items that no family knows yet")
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print rows added, seen before and failed as JSON")
	addWaitFlag(cmd, &opts.Wait)
	addScreenFlags(cmd, &scr)
	if err := cmd.MarkFlagFilename("map", "toml"); err != nil {
		panic(err) // the flag is defined above
	}
	return cmd
}

func runPricesImport(opts *pricesImportOptions) error {
	text, name, err := load.Source(opts.File, opts.In, prices.MaxTable, "a CSV file")
	if err != nil {
		return err
	}
	m, err := opts.readMap(text)
	if err != nil {
		return err
	}
	if opts.Map == "" {
		text = csvtext.Unguarded(text)
	}
	i := &importing{pricesImportOptions: opts, by: m, name: name, text: text}
	if opts.DryRun {
		return i.preview()
	}
	s, err := opts.store(opts.Wait)
	if err != nil {
		return err
	}
	i.vet = newVetter(s.library, opts.Now(), opts.NewItem)
	i.table = s.name(pricesFile)
	if err := s.edit(pricesFile, i.add); err != nil {
		return err
	}
	return i.report()
}

// readMap reads the import map, or makes one of a price table's own columns.
func (opts *pricesImportOptions) readMap(text []byte) (*prices.Map, error) {
	in, name := io.Reader(strings.NewReader(ownMap(text))), "the header"
	if opts.Map != "" {
		file, mapName, err := load.Source(opts.Map, opts.In, diag.MaxDocument, "an import map")
		if err != nil {
			return nil, err
		}
		in, name = bytes.NewReader(file), mapName
	}
	doc := diag.ReadDocument(name, in)
	m := prices.ReadMap(doc)
	diags := doc.Diagnostics()
	if err := diags.Err(); err != nil {
		if opts.Map == "" {
			return nil, usagef("%s is not laid out as a price table", load.Short(opts.File)).
				hint("expected a header such as %s", strings.Join(csvtext.Columns, ",")).
				hint("--map MAP.toml says how another CSV file is to be read")
		}
		return nil, err
	}
	opts.warn(diags)
	return m, nil
}

// ownMap is the import map of a file that is laid out as a price table, with
// those of its columns that the file has.
func ownMap(text []byte) string {
	var b strings.Builder
	b.WriteString("format = 1\n[csv]\ncomment = \"#\"\n[columns]\n")
	for i, name := range csvtext.Header(text) {
		known := strings.ToLower(strings.TrimSpace(name))
		if slices.Contains(csvtext.Columns, known) {
			fmt.Fprintf(&b, "%s = %d\n", known, i+1)
		}
	}
	return b.String()
}
