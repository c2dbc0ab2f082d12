package main

import (
	"bytes"
	"cmp"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// setFactors is the text of a family file with factors put in the place of those
// that stand there, and the titles of those that were and of those that have no
// place.
func setFactors(name string, text []byte, factors []valuation.FittedFactor) (out []byte, set, left []string) {
	doc := diag.ReadDocument(name, bytes.NewReader(text))
	var changes []numberAt
	for _, x := range factors {
		t := tableOf(doc.Root(), x)
		if t == nil || !t.Has("factor") || !t.IsNumber("factor") {
			left = append(left, x.Title)
			continue
		}
		set = append(set, x.Title)
		changes = append(changes, numberAt{t.Pos("factor"), strconv.FormatFloat(rounded(x.Fitted), 'f', -1, 64)})
	}
	return setNumbers(text, changes), set, left
}

// rounded is a factor as one would write it.
func rounded(f float64) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(f, 'f', 3, 64), 64)
	if err != nil {
		panic(err) // it is what FormatFloat wrote
	}
	return short
}

// tableOf is the table of a family file that has a factor, nil where there is
// none.
func tableOf(root *diag.Table, x valuation.FittedFactor) *diag.Table {
	if x.Kind == valuation.GradeFactor {
		return byID(root.Children("grade"), x.ID)
	}
	point, state, _ := strings.Cut(x.ID, ":")
	if p := byID(root.Children("point"), point); p != nil {
		return byID(p.Children("state"), state)
	}
	return nil
}

func byID(tables []*diag.Table, id string) *diag.Table {
	i := slices.IndexFunc(tables, func(t *diag.Table) bool { return t.Text("id") == id })
	if i < 0 {
		return nil
	}
	return tables[i]
}

// numberAt is a number to be put in the place of the one at a position.
type numberAt struct {
	pos    diag.Pos
	number string
}

// setNumbers puts numbers in the place of others; every other byte stays.
func setNumbers(text []byte, changes []numberAt) []byte {
	slices.SortFunc(changes, func(a, b numberAt) int {
		return cmp.Or(cmp.Compare(b.pos.Line, a.pos.Line), cmp.Compare(b.pos.Column, a.pos.Column)) // from the end
	})
	out := bytes.Clone(text)
	for _, c := range changes {
		at := offset(out, c.pos)
		end := at
		for end < len(out) && strings.IndexByte("0123456789+-._eExX", out[end]) >= 0 {
			end++
		}
		out = slices.Concat(out[:at], []byte(c.number), out[end:])
	}
	return out
}

// offset is the place of a position in a text, in bytes.
func offset(text []byte, p diag.Pos) int {
	at := 0
	for range p.Line - 1 {
		at += bytes.IndexByte(text[at:], '\n') + 1
	}
	for range p.Column - 1 {
		_, size := utf8.DecodeRune(text[at:])
		at += size
	}
	return at
}

// sound tells whether the family reads well from a new text of its file, and a
// better grade is worth more in it than a worse one.
func (s *store) sound(family, file string, text []byte) error {
	trial := valuation.Open(overlaid{s.folder.FS, file, text}, s.folder.Name, false)
	f, diags := trial.Family(family)
	if diags.HasErrors() {
		return fmt.Errorf("the file would not be sound any more, and is left as it is: %w", diags)
	}
	for i := 1; i < len(f.Grades); i++ {
		if worse, better := f.Grades[i-1], f.Grades[i]; better.Factor < worse.Factor {
			return &refusal{what: fmt.Sprintf("grade %s, %v, would be worth less than grade %s, %v: the file is left as it is",
				better.ID, better.Factor, worse.ID, worse.Factor),
				hints: []string{"the rows are too few to tell the grades apart: write into the file yourself what you trust"}}
		}
	}
	return nil
}

// overlaid is a folder in which one file has another text.
type overlaid struct {
	fs.FS
	name string
	text []byte
}

// Open implements fs.FS.
func (o overlaid) Open(name string) (fs.File, error) {
	if name != o.name {
		return o.FS.Open(name)
	}
	return &textFile{Reader: bytes.NewReader(o.text), name: name}, nil
}

// textFile is a file whose text is in memory.
type textFile struct {
	*bytes.Reader
	name string
}

func (f *textFile) Stat() (fs.FileInfo, error) { return f, nil }
func (f *textFile) Close() error               { return nil }
func (f *textFile) Name() string               { return f.name }
func (f *textFile) Mode() fs.FileMode          { return 0o444 }
func (f *textFile) ModTime() time.Time         { return time.Time{} }
func (f *textFile) IsDir() bool                { return false }
func (f *textFile) Sys() any                   { return nil }
