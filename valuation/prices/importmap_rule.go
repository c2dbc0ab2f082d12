package prices

import (
	"errors"
	"fmt"
	"regexp"
	"regexp/syntax"
	"slices"
	"strconv"
	"strings"

	"lotgauge/valuation/diag"
)

// condition holds for a row if each of its patterns is found; an empty one, which
// is a fault of the map, for none.
type condition []cellPattern

// cellPattern is a pattern and the column that it is looked for in.
type cellPattern struct {
	column columnRef
	find   *regexp.Regexp
}

// itemRule sets columns of the row it fits.
type itemRule struct {
	when condition
	sets [columnCount]template // nil: not set
}

// ruleColumns are those that a rule may set.
var ruleColumns = []column{itemColumn, kindColumn, gradeColumn, lackingColumn}

// condition reads `when = { "column" = 'pattern', … }`.
func (r mapReader) condition(t *diag.Table) condition {
	if !t.Need("when", `patterns by column such as { "Title" = '\bCE4\b' }`) {
		return nil
	}
	when, c := t.Child("when"), condition{}
	for _, name := range when.Keys() {
		find, ok := diag.Parse(when, name, `a regular expression in single quotes such as '\bCE4\b'`, compile)
		if ok {
			c = append(c, cellPattern{r.named(when, name), find})
		}
	}
	if when != nil && len(when.Keys()) == 0 {
		t.Report("when", "no pattern", "at least one, or every row would fit", "")
	}
	return c
}

// named is a column by the key of a pattern: a name, or digits for a number.
func (r mapReader) named(t *diag.Table, key string) columnRef {
	ref := columnRef{name: key, pos: t.Pos(key), key: t.Path()}
	if n, err := strconv.Atoi(key); err == nil && n >= 1 && n <= maxCells {
		ref.name, ref.number = "", n
	} else if !r.header {
		t.Report(key, "a file without a header has no names", `the number of the column, such as "1"`, "")
	}
	return ref
}

// compile reads a pattern; the error is what is wrong and the part of the pattern
// that it is wrong with, not the whole of what regexp says.
func compile(text string) (*regexp.Regexp, error) {
	find, err := regexp.Compile(text)
	var bad *syntax.Error
	if errors.As(err, &bad) {
		return nil, fmt.Errorf("%s in %s", bad.Code, quote(bad.Expr))
	}
	return find, err
}

// rule reads an [[item]].
func (r mapReader) rule(t *diag.Table) itemRule {
	rule := itemRule{when: r.condition(t)}
	var groups []string // "" where a group has no name; groups[0] is not used
	for _, p := range rule.when {
		groups = append(groups, p.find.SubexpNames()[1:]...)
	}
	names := make([]string, len(ruleColumns))
	for i, c := range ruleColumns {
		names[i] = columnNames[c]
		parse := func(text string) (template, error) { return newTemplate(c, text, groups) }
		rule.sets[c], _ = diag.Parse(t, names[i], "a text in which $1 is what the first group found", parse)
		if t.Has(names[i]) && rule.sets[c] == nil {
			rule.sets[c] = template{} // refused, and reported: it is meant to be set
		}
	}
	if !slices.ContainsFunc(names, t.Has) {
		t.Report("", "the rule sets nothing", "item, kind, grade or lacking", "")
	}
	return rule
}

// fits reports whether a row meets the condition, and what the groups of its
// patterns found, "" for a group that took no part in the match.
func (c condition) fits(cell func(columnRef) string) (groups []string, fits bool) {
	for _, p := range c {
		found := p.find.FindStringSubmatch(cell(p.column))
		if found == nil {
			return nil, false
		}
		groups = append(groups, found[1:]...)
	}
	return groups, len(c) > 0
}

// template is a text with places for what groups found.
type template []piece

// piece is a text, or the number of a group, from 0, counted through all patterns
// of the rule.
type piece struct {
	text  string
	group int // -1 for a text
}

// placeholder matches what stands for something else in a template.
var placeholder = regexp.MustCompile(`\$(?:(\$)|(\d+)|\{(\w+)\})`)

// newTemplate reads the text that a rule sets a column to. Without places it must
// be one that the column may hold; with places that shows row by row. The places
// are written as for [regexp.Regexp.Expand], but $1x is group 1 and an x, where
// Expand looks for a group called 1x and finds nothing.
func newTemplate(c column, text string, groups []string) (template, error) {
	t, at := template{}, 0
	for _, found := range placeholder.FindAllStringSubmatchIndex(text, -1) {
		t = append(t, piece{text[at:found[0]], -1})
		name := strings.Trim(text[found[0]:found[1]], "${}")
		if at = found[1]; name == "" {
			t = append(t, piece{"$", -1})
			continue
		}
		group, err := groupOf(name, groups)
		if err != nil {
			return nil, err
		}
		t = append(t, piece{group: group})
	}
	t = append(t, piece{text[at:], -1})
	if bad := new(Row).set(c, t.fill(nil)); bad != nil && len(t) == 1 {
		return nil, errors.New(bad.summary)
	}
	return t, nil
}

// groupOf is the place of a group by number, from 1, or by name.
func groupOf(name string, groups []string) (int, error) {
	if n, err := strconv.Atoi(name); err == nil {
		if n < 1 || n > len(groups) {
			return 0, fmt.Errorf("there is no group %d: the patterns have %d", n, len(groups))
		}
		return n - 1, nil
	}
	if i := slices.Index(groups, name); i >= 0 {
		return i, nil
	}
	return 0, fmt.Errorf("there is no group called %s", quote(name))
}

// fill puts what the groups found into a template; nil groups found nothing. Spaces
// around the outcome go, as around every cell.
func (t template) fill(groups []string) string {
	var b strings.Builder
	for _, p := range t {
		switch {
		case p.group < 0:
			b.WriteString(p.text)
		case p.group < len(groups):
			b.WriteString(groups[p.group])
		}
	}
	return strings.TrimSpace(b.String())
}
