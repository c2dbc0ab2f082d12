package main

import (
	"reflect"
	"slices"

	"lotgauge/valuation"
)

// question is what the page wants to know of a find.
type question struct {
	Find   find     `json:"find"`
	Draws  int      `json:"draws"`  // 0: as the settings say
	Here   []string `json:"here"`   // the evidence to be had
	Passed []string `json:"passed"` // keys of the checks passed over
	Key    string   `json:"key"`    // of a check, and the answer to it
	Answer string   `json:"answer"`
}

// course is an inspection under way. Most questions of the page are the last one
// with one finding more: those the inspection takes up at once, where another
// find would have to be priced first.
type course struct {
	question
	inspection *valuation.Inspection
	draws      int      // how many there are
	points     []string // ids of the family's
	warnings   []string
}

// inspect is the inspection that answers a question.
func (d *desk) inspect(q question) (*course, error) {
	if c := d.current; c != nil && c.continues(&q) {
		if err := c.proceed(d.library, &q); err == nil {
			return c, nil
		}
	}
	d.current = nil
	c, err := d.begin(q)
	if err == nil {
		d.current = c
	}
	return c, err
}

func (d *desk) begin(q question) (*course, error) {
	x, err := q.Find.listing(d.library)
	if err != nil {
		return nil, err
	}
	n, diags := d.library.Inspect(x, valuation.InspectOptions{Options: valuation.Options{Draws: q.Draws}, Here: q.Here})
	if err := diags.Err(); err != nil {
		return nil, err
	}
	c := &course{question: q, inspection: n, draws: q.Draws, warnings: []string{}}
	for _, w := range diags {
		c.warnings = append(c.warnings, w.Summary)
	}
	f, _ := d.library.Family(x.Family) // it was read for the inspection, and so were the settings
	for i := range f.Points {
		c.points = append(c.points, f.Points[i].ID)
	}
	if s, _ := d.library.Settings(); c.draws == 0 {
		c.draws = s.Draws
	}
	c.Passed = nil
	c.pass(q.Passed)
	return c, nil
}

// continues tells whether a question is about the same inspection with findings
// and checks passed over that begin like those so far.
func (c *course) continues(q *question) bool {
	then, now := c.Find, q.Find
	then.Findings, now.Findings = nil, nil
	return c.Draws == q.Draws && slices.Equal(c.Here, q.Here) && reflect.DeepEqual(then, now) &&
		begins(q.Find.Findings, c.Find.Findings) && begins(q.Passed, c.Passed)
}

// begins tells whether a list begins with another.
func begins[T any](list, with []T) bool {
	return len(list) >= len(with) && (len(with) == 0 || reflect.DeepEqual(list[:len(with)], with))
}

// proceed takes up the findings and passed checks that are new. Where it fails
// the course is of no more use.
func (c *course) proceed(library *valuation.Library, q *question) error {
	more := q.Find
	more.Findings = q.Find.Findings[len(c.Find.Findings):]
	if len(more.Findings) > 0 {
		x, err := more.listing(library)
		if err != nil {
			return err
		}
		for _, f := range x.Findings {
			if err := c.inspection.Record(f).Err(); err != nil {
				return err
			}
		}
	}
	c.Find = q.Find
	c.pass(q.Passed)
	return nil
}

// pass passes checks over; one that cannot be made here needs no passing.
func (c *course) pass(keys []string) {
	for _, key := range keys[len(c.Passed):] {
		if check, ok := c.inspection.Check(key); ok {
			c.inspection.Answer(check, valuation.CannotTell)
		}
	}
	c.Passed = keys
}

// figure is where the inspection stands, and what to check next.
func (d *desk) figure(q question) (any, error) {
	c, err := d.inspect(q)
	if err != nil {
		return nil, err
	}
	return newFigure(c), nil
}

// answer is the finding that the answer to a check comes to.
func (d *desk) answer(q question) (any, error) {
	c, err := d.inspect(q)
	if err != nil {
		return nil, err
	}
	check, ok := c.inspection.Check(q.Key)
	if !ok {
		return nil, faultf("there is no check %q here", q.Key)
	}
	if err := c.inspection.Answer(check, q.Answer).Err(); err != nil {
		return nil, err
	}
	x := c.inspection.Listing()
	f := newFinding(&x.Findings[len(x.Findings)-1])
	c.Find.Findings = append(slices.Clone(c.Find.Findings), f)
	return f, nil
}
