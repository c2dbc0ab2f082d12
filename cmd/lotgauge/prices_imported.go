package main

import (
	"fmt"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation/diag"
)

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
