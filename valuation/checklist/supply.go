package checklist

import (
	"fmt"
	"slices"
	"strings"

	"lotgauge/valuation/diag"
)

// readParts reads tables such as
//
//	[[part]]
//	id = "pantograph-black"
//	title = "Pantograph, black"
//	group = "pantograph"
//	guide = "34 EUR"
//	sells = "85%"
func (r *reader) readParts(t *diag.Table) {
	all := t.Children("part") // as many as there are
	r.parts.partial = t.Unread("part")
	for _, c := range all {
		p := Part{
			ID:    r.id(c, r.parts),
			Group: c.Text("group"),
			Guide: guide(c),
			Sells: share(c, "sells"),
			File:  r.fam.File,
		}
		p.Title = titled(c, p.ID)
		r.fam.Parts = append(r.fam.Parts, p)
	}
}

// supplies reads needs or yields of a state, strings and tables in any order:
//
//	["lamp-{lamps}", { part = "screw", qty = 2 }]
func (r *reader) supplies(t *diag.Table, key string, applies []bool) []Supply {
	var out []Supply
	for i, item := range t.Items(key) {
		s, where := Supply{Template: item.Text, Qty: 1}, place{t, key, i}
		if c := item.Table; c != nil {
			s.Template, s.Qty = c.Required("part"), c.Integer("qty", 1, 1, 1000)
			where = at(c, "part")
		} else if item.Text == "" {
			where.report("empty", "the id of a [[part]]", "")
		}
		s.Part = r.resolve(s.Template, applies, where)
		out = append(out, s)
	}
	return out
}

// resolve is the part that a template stands for, per variant: -1 where the
// point does not apply or, reported, where there is no such part. Each part that
// is missing is reported once, with the first variant that wants it.
func (r *reader) resolve(template string, applies []bool, where place) []int {
	out := slices.Repeat([]int{-1}, len(applies))
	segments, ok := r.segments(template, where)
	if !ok {
		return out
	}
	missing := roster{index: map[string]int{}} // part ids, by the first variant that wants them
	for v, does := range applies {
		if !does {
			continue
		}
		id, ok := segments.fill(r.fam, v)
		if !ok {
			continue // its fit has been reported
		}
		if out[v] = r.part(id); out[v] < 0 {
			if _, ok := missing.index[id]; !ok {
				missing.index[id] = v
				missing.ids = append(missing.ids, id)
			}
		}
	}
	for _, id := range missing.ids {
		if r.parts.partial {
			break // it may be the one that could not be read
		}
		r.noPart(id, template, missing.index[id], where)
	}
	return out
}

// noPart reports a part that does not exist, and how the template came to name
// it for variant v.
func (r *reader) noPart(id, template string, v int, where place) {
	summary := "unknown part " + quoted(id)
	if id != template {
		summary = fmt.Sprintf("%s is %s for variant %s, an unknown part", quoted(template), quoted(id), quoted(r.fam.Variants[v].ID))
	}
	where.report(summary, "the id of a [[part]]", try(r.parts.near(id)))
}

// part is the index of a part, -1 if there is none. A foreign one is entered
// when it is first met.
func (r *reader) part(id string) int {
	if i, ok := r.parts.index[id]; ok {
		return i
	}
	if r.foreign == nil {
		return -1
	}
	p, ok := r.foreign(id)
	if !ok {
		return -1
	}
	p.ID, p.Foreign = id, true
	r.parts.enter(id, place{})
	r.fam.Parts = append(r.fam.Parts, p)
	return len(r.fam.Parts) - 1
}

// A segment of a template is plain text or, where feature is not -1, the place
// of the variant's option of it.
type segment struct {
	text    string
	feature int
}

type segments []segment

// segments takes a template apart and resolves the features it names. It is
// false where that fails, which has then been reported.
func (r *reader) segments(template string, where place) (segments, bool) {
	if template == "" {
		return nil, false
	}
	split, ok := pieces(template)
	if !ok {
		where.report("braces that enclose no name in "+quoted(template), "places such as {pantograph}", "")
		return nil, false
	}
	var out segments
	for _, p := range split {
		s := segment{p.text, -1}
		if p.name {
			if s.feature = r.features.find(p.text, where); s.feature < 0 {
				ok = false
			}
		}
		out = append(out, s)
	}
	return out, ok
}

// fill is the part id for a variant; false if its fit is broken.
func (s segments) fill(f *Family, v int) (string, bool) {
	var b strings.Builder
	for _, x := range s {
		if x.feature < 0 {
			b.WriteString(x.text)
			continue
		}
		option := f.Variants[v].Fit[x.feature]
		if option < 0 {
			return "", false
		}
		b.WriteString(f.Features[x.feature].Options[option])
	}
	return b.String(), true
}
