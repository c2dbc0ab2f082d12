package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
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

// An importing is a file on its way into the price table.
type importing struct {
	*pricesImportOptions
	by    *prices.Map
	name  string // of the file
	text  []byte
	table string // how messages name the price table
	vet   *vetter
	in    *prices.Imported
}

// add is the text of the table with the new rows added.
func (i *importing) add(old []byte) ([]byte, error) {
	if err := i.read(old); err != nil || len(i.in.Rows) == 0 {
		return old, err
	}
	out, lines, err := csvtext.Append(i.table, old, i.in.Rows)
	for n, line := range lines {
		i.in.Rows[n].Line = line
	}
	return out, err
}

// read reads the file by the map, against the table as it is. A row of that
// which cannot be read could be one of the file, so there must be none.
func (i *importing) read(old []byte) error {
	var known *prices.Table
	if len(old) > 0 {
		var diags diag.List
		if known, diags = prices.ReadTable(i.table, bytes.NewReader(old)); diags.HasErrors() {
			return diags
		}
	}
	in, diags := i.by.Import(i.name, bytes.NewReader(i.text), known)
	if err := diags.Err(); err != nil {
		return err
	}
	i.warn(diags)
	i.vet.sort(in)
	i.in = in
	return nil
}

// preview prints what an import would add.
func (i *importing) preview() error {
	library, folder, err := i.library()
	if err != nil {
		return err
	}
	old, err := fs.ReadFile(folder.FS, pricesFile)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	i.vet = newVetter(library, i.Now(), i.NewItem)
	i.table = filepath.Join(folder.Name, pricesFile)
	if err := i.read(old); err != nil {
		return err
	}
	if folder.Demonstration {
		i.note(table.DemonstrationNote)
	}
	if !i.JSON && len(i.in.Rows) > 0 {
		var rows []table.SeenRow
		for _, r := range rowsToJSON(i.in.Rows) {
			rows = append(rows, table.SeenRow(r))
		}
		var b bytes.Buffer
		if err := table.SeenRows(&b, rows, i.Layout); err != nil {
			return err
		}
		if _, err := i.Out.Write(b.Bytes()); err != nil {
			return unwritten(err)
		}
	}
	return i.report()
}

// importJSON is the JSON form of an import.
type importJSON struct {
	File    string       `json:"file"`
	Table   string       `json:"table"`
	DryRun  bool         `json:"dry_run"`
	Added   []rowJSON    `json:"added"` // lines of the table, in a dry run of the file
	Seen    []rowJSON    `json:"seen"`  // lines of the file, as for those that follow
	Failed  []failedJSON `json:"failed"`
	Skipped int          `json:"skipped"` // by a rule of the map
}

type failedJSON struct {
	Line   int    `json:"line"`
	Reason string `json:"reason"`
	Text   string `json:"text"`
}

// report says what became of the rows of the file.
func (i *importing) report() error {
	var err error
	if i.JSON {
		out := importJSON{File: i.name, Table: i.table, DryRun: i.DryRun, Added: rowsToJSON(i.in.Rows),
			Seen: rowsToJSON(i.in.Seen), Failed: []failedJSON{}, Skipped: i.in.Skipped}
		for _, f := range i.in.Failed {
			out.Failed = append(out.Failed, failedJSON(f))
		}
		err = printJSON(escaper{i.Out}, out)
	} else {
		err = table.Paragraph(i.Out, i.summary(), i.Layout)
	}
	if err != nil {
		return unwritten(err)
	}
	i.vet.remarks(i.environment, i.in.Rows)
	return i.failures()
}

// summary counts the rows.
func (i *importing) summary() string {
	what := counted(len(i.in.Rows), "row") + " would be added to " + i.table
	if !i.DryRun {
		what = counted(len(i.in.Rows), "row") + " added to " + i.table
		switch n := len(i.in.Rows); {
		case n == 1:
			what += fmt.Sprintf(", line %d", i.in.Rows[0].Line)
		case n > 1:
			what += fmt.Sprintf(", lines %d to %d", i.in.Rows[0].Line, i.in.Rows[n-1].Line)
		}
	}
	for _, more := range []struct {
		n    int
		what string
	}{{len(i.in.Seen), "seen before"}, {i.in.Skipped, "left out by the map"}, {len(i.in.Failed), "not taken"}} {
		if more.n > 0 {
			what += fmt.Sprintf("; %d %s", more.n, more.what)
		}
	}
	return i.name + ": " + what
}

// failures lists the rows that were not taken.
func (i *importing) failures() error {
	if len(i.in.Failed) == 0 {
		return nil
	}
	if !i.JSON {
		var list diag.List
		for _, f := range i.in.Failed {
			list.Add(diag.Diagnostic{Severity: diag.Error, Pos: diag.Pos{File: i.name, Line: f.Line}, Summary: f.Reason})
		}
		i.warn(list)
	}
	return &badData{fmt.Sprintf("%s: %s not taken", i.name, counted(len(i.in.Failed), "row"))}
}
