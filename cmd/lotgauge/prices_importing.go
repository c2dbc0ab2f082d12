package main

import (
	"bytes"
	"errors"
	"io/fs"
	"path/filepath"

	"lotgauge/cmd/lotgauge/load/csvtext"
	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

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
