package main

import (
	"bytes"
	"context"
	"io"
	"slices"
	"strings"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// A dialogue leads somebody through an inspection.
type dialogue struct {
	*inspectOptions
	demonstration bool
	n             *valuation.Inspection
	family        *checklist.Family
	record        *record
	from          source
	going         bool            // on, though it no longer pays
	told          map[string]bool // rules that were said
}

// run asks until somebody stops. Its error is io.EOF where the answers end and
// errInterrupted where somebody interrupts it.
func (d *dialogue) run(ctx context.Context) error {
	if err := d.print(func(w io.Writer) error { return table.InspectHead(w, d.head(), d.Layout) }); err != nil {
		return err
	}
	for {
		c, more := d.next()
		if err := d.present(c, more); err != nil {
			return err
		}
		for moved := false; !moved; {
			text, err := d.from.ask(ctx, d.prompt(c, more), false)
			if err != nil {
				return err
			}
			var stop bool
			if moved, stop, err = d.act(ctx, read(text, c, more)); err != nil || stop {
				return err
			}
		}
	}
}

func (d *dialogue) head() table.InspectionHead {
	x := d.n.Listing()
	return table.InspectionHead{
		Title: x.Title, Family: d.family.Title, File: d.record.name(), Cautions: inShort,
		Demonstration: d.demonstration, Standing: d.n.Standing(), Resumed: len(d.n.Replies()), Sheet: d.n.Standing().Purchase.SheetTitle,
	}
}

// next is the check to ask for; false where there is none to ask for.
func (d *dialogue) next() (valuation.Check, bool) {
	if c, ok := d.n.Next(); ok {
		return c, true
	}
	if all := d.n.Checks(); d.going && len(all) > 0 {
		return all[0], true
	}
	d.going = false
	return valuation.Check{}, false
}

// present shows a check, or that looking further does not pay.
func (d *dialogue) present(c valuation.Check, more bool) error {
	s := d.n.Standing()
	return d.print(func(w io.Writer) error {
		if !more {
			return table.InspectOutlook(w, d.n.Outlook(), d.n.Checks(), s, d.Layout)
		}
		asked := table.InspectionCheck{
			Check: c, Number: s.Checked + 1, Currency: s.Currency, Keys: answerKeys(c), Care: care(c), Pays: d.n.Outlook() == valuation.LookOn,
		}
		return table.InspectCheck(w, asked, d.Layout)
	})
}

// roomy is from how many columns on the prompt says what its keys do; the head
// says it in any case.
const roomy = 72

// prompt is what stands before the answer.
func (d *dialogue) prompt(c valuation.Check, more bool) string {
	keys := []string{"? cannot tell", "s skip", "b back", "q stop"}
	switch {
	case !more && len(d.n.Checks()) > 0:
		keys = []string{"g go on", "b back", "q stop"}
	case !more:
		keys = keys[2:]
	case c.Measure != nil:
		keys = append(keys, "m measured")
	}
	if d.from.live() {
		keys = slices.Insert(keys, slices.Index(keys, "q stop"), ": CHECK=ANSWER")
	}
	if d.Layout.Width < roomy {
		for i := range keys {
			keys[i] = keys[i][:1]
		}
	}
	return strings.Join(keys, ", ") + ": "
}

// act does what was asked for. moved tells whether there is something new to
// present.
func (d *dialogue) act(ctx context.Context, r request) (moved, stop bool, err error) {
	switch r.do {
	case doStop:
		return false, true, d.end("")
	case doBack:
		return d.back()
	case doGoOn:
		return d.goOn(r.more)
	case doType:
		return d.typed(ctx, r)
	case doNothing:
		return false, false, nil
	case doAnswer:
		moved, err = d.answer(ctx, r)
		return moved, false, err
	}
	return false, false, d.object(diag.List{{Severity: diag.Error, Summary: "no check is asked for that \"" + r.text + "\" answers", Expected: "go on, back, stop, or CHECK=ANSWER"}})
}

// goOn goes on though it no longer pays, where that is so.
func (d *dialogue) goOn(more bool) (moved, stop bool, err error) {
	switch {
	case len(d.n.Checks()) == 0:
		return false, false, d.objectText("nothing is left to check here")
	case more && d.from.live():
		return false, false, d.objectText("a check is being asked for: answer it, or s skips it")
	}
	d.going = true
	return true, false, nil
}

// typed asks for a whole line, where one key said that one is to come.
func (d *dialogue) typed(ctx context.Context, r request) (moved, stop bool, err error) {
	prompt := "answer, or CHECK=ANSWER: "
	if r.reading {
		prompt = diag.Clean(r.check.Measure.What) + ", in " + diag.Clean(r.check.Measure.Unit)
		if r.check.Right != "" {
			prompt += " (right: " + diag.Clean(r.check.Right) + ")"
		}
		prompt += ": "
	}
	text, err := d.from.ask(ctx, prompt, true)
	if err != nil || leaves(text) || strings.TrimSpace(text) == "" {
		return false, false, err
	}
	if r.reading {
		return d.act(ctx, request{do: doAnswer, check: r.check, answer: text})
	}
	next := read(text, r.check, r.more)
	if next.do == doType {
		next.do = doNothing
	}
	return d.act(ctx, next)
}

// answer gives an answer to the engine, keeps it and says what came of it.
func (d *dialogue) answer(ctx context.Context, r request) (bool, error) {
	c := r.check
	if r.key != "" {
		var ok bool
		if c, ok = d.named(r.key); !ok {
			return false, d.object(unknownCheck(r.key, d.n.Checks()))
		}
	}
	if r.answer = dotted(r.answer); c.Measure != nil {
		r.answer = withUnit(r.answer, c.Measure.Unit)
	}
	taken, _ := d.n.Taken(c.Key(), r.answer)
	if taken.Implausible {
		if keep, err := d.confirm(ctx, c, r.answer, taken); err != nil || !keep {
			return false, err
		}
	}
	before := d.n.Standing()
	if diags := d.n.Answer(c, r.answer); diags.HasErrors() {
		return false, d.object(diags)
	}
	if err := d.record.save(d.n); err != nil {
		d.n.Back()
		return false, err
	}
	taken, _ = d.n.Taken(c.Key(), r.answer) // what is likeliest has changed
	return true, d.stand(c, spoken(answered(c, r.answer), taken), before)
}

// named is the check that a name stands for: its key, or its id alone; "variant"
// is the catalogue number, as for lotgauge explain.
func (d *dialogue) named(name string) (valuation.Check, bool) {
	for _, kind := range []string{"", valuation.CheckPoint, valuation.CheckSymptom, valuation.CheckFeature, valuation.CheckVariant} {
		key := name
		if kind != "" {
			key = kind + ":" + name
		}
		if c, ok := d.n.Check(key); ok {
			return c, true
		}
	}
	if name == valuation.CheckVariant {
		return d.n.Check(name + ":" + d.family.ID)
	}
	return valuation.Check{}, false
}

// stand says where to stop now.
func (d *dialogue) stand(c valuation.Check, said string, before *valuation.Standing) error {
	now := d.n.Standing()
	step := table.InspectionStep{Title: c.Title, Answer: said, Before: before, Now: now}
	if old := d.n.Instead(); old != "" {
		step.Instead = answered(c, old)
	}
	for _, r := range now.Rules {
		if !d.told[r.ID] {
			d.told[r.ID] = true
			step.News = append(step.News, r)
		}
	}
	return d.print(func(w io.Writer) error { return table.InspectStep(w, step, d.Layout) })
}

// answered is an answer in words.
func answered(c valuation.Check, answer string) string {
	switch answer {
	case valuation.CannotTell:
		return "cannot be told"
	case valuation.Skip:
		return "skipped for now"
	}
	if i := slices.IndexFunc(c.Answers, func(a valuation.CheckAnswer) bool { return a.ID == answer }); i >= 0 {
		return c.Answers[i].Title
	}
	return answer
}

// back takes the last answer back.
func (d *dialogue) back() (moved, stop bool, err error) {
	replies := d.n.Replies()
	before := d.n.Standing()
	if !d.n.Back() {
		return false, false, d.objectText("there is no answer to take back")
	}
	if err := d.record.save(d.n); err != nil {
		return false, false, err
	}
	last := replies[len(replies)-1]
	c, _ := d.n.Check(last.Check)
	said := table.InspectionStep{Title: c.Title, Answer: "taken back", Before: before, Now: d.n.Standing()}
	return true, false, d.print(func(w io.Writer) error { return table.InspectStep(w, said, d.Layout) })
}

// end says where it ended and where it is kept.
func (d *dialogue) end(why string) error {
	e := table.InspectionEnd{Why: why, File: d.record.name(), Standing: d.n.Standing(), Replies: len(d.n.Replies())}
	return d.print(func(w io.Writer) error { return table.InspectEnd(w, e, d.Layout) })
}

// print writes what f writes, whole.
func (d *dialogue) print(f func(io.Writer) error) error {
	var b bytes.Buffer
	if err := f(&b); err != nil {
		return err
	}
	_, err := d.Out.Write(b.Bytes())
	return unwritten(err)
}
