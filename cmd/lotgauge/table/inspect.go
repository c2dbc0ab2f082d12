package table

import (
	"fmt"
	"io"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// An InspectionHead is what an inspection begins with.
type InspectionHead struct {
	Title, Family, File string
	Cautions            []string
	Demonstration       bool
	Standing            *valuation.Standing
	Resumed             int    // answers taken up
	Sheet               string // title of the charge sheet that it is bought by
}

// InspectHead prints what is inspected, where it is kept, what to mind and where
// to stop before a look.
func InspectHead(w io.Writer, h InspectionHead, o Options) error {
	p := newPrinter(o)
	if h.Demonstration {
		p.para(warn, "", "", DemonstrationNote)
	}
	p.para(strong, "", margin, clipped(h.Title, titleRunes))
	if h.Family != h.Title {
		p.para(faint, "", margin, h.Family)
	}
	if h.Sheet != "" {
		p.para(faint, "", margin, "Bought by "+clipped(h.Sheet, titleRunes)+".")
	}
	p.para(faint, "", margin, "Kept in "+h.File+" after every answer.")
	p.para(faint, "", margin, "Keys: those of the answers; ? cannot tell, s skip for now, b back, g go on, q stop, m type a reading, : type an answer or CHECK=ANSWER.")
	p.blank()
	for _, c := range h.Cautions {
		p.para(warn, "", margin, c)
	}
	p.blank()
	if h.Resumed > 0 {
		p.para(plain, "", margin, "Going on after "+counted(h.Resumed, "answer")+".")
	}
	p.standing(h.Standing)
	p.fired(h.Standing.Rules)
	return p.writeTo(w)
}

// standing says where to stop as things stand.
func (p *printer) standing(s *valuation.Standing) {
	a := asAppraisal(s)
	p.headline(a)
	if len(s.Missing) > 0 {
		p.missing(a)
	}
}

// asAppraisal is a standing as far as a headline goes.
func asAppraisal(s *valuation.Standing) *valuation.Appraisal {
	a := &valuation.Appraisal{Currency: s.Currency, Worth: s.Worth, Purchase: s.Purchase}
	a.Reading.Verdict, a.Reading.Reasons, a.Reading.Missing = s.Verdict, s.Reasons, s.Missing
	return a
}

// An InspectionCheck is a check that is asked for.
type InspectionCheck struct {
	valuation.Check
	Number   int
	Currency string
	Keys     []string // of the answers; empty for one that must be typed
	Care     []string // what to mind
	Pays     bool
}

// InspectCheck prints a check: how to do it, why it pays, what can be answered.
func InspectCheck(w io.Writer, c InspectionCheck, o Options) error {
	p := newPrinter(o)
	p.blank()
	title := fmt.Sprintf("%d. %s", c.Number, clipped(c.Title, titleRunes))
	if c.Area != "" {
		title += " (" + c.Area + ")"
	}
	p.para(strong, "", margin, title)
	if c.How != "" {
		p.note(plain, sentence(c.How))
	}
	p.note(faint, pays(&c))
	for _, care := range c.Care {
		p.note(warn, care)
	}
	p.choices(&c)
	return p.writeTo(w)
}

// pays says why a check pays, or that it does not.
func pays(c *InspectionCheck) string {
	takes := minutes(c.Minutes)
	worth := tied(amount(&c.Worth, c.Currency))
	switch {
	case !c.Pays:
		return "It takes " + takes + " and is worth " + worth + ": it no longer pays."
	case c.Together > 2:
		return fmt.Sprintf("It takes %s. Together with the %d after it, knowing it is worth %s; less the time for all of them %s.",
			takes, c.Together-1, worth, tied(amount(&c.Net, c.Currency)))
	case c.With != "":
		return "It takes " + takes + ". Together with the next, " + lower(c.With) + ", knowing it is worth " + worth +
			"; less the time for both " + tied(amount(&c.Net, c.Currency)) + "."
	}
	return "It takes " + takes + ". Knowing it is worth " + worth + "; less the time " + tied(amount(&c.Net, c.Currency)) + "."
}

func minutes(m float64) string {
	if m == 1 {
		return "1 minute"
	}
	return fmt.Sprintf("%.3g minutes", m)
}

// choices lists what can be answered, by which key and how likely it is.
func (p *printer) choices(c *InspectionCheck) {
	g := &grid{columns: []column{{}, {flex: true}, {right: true}}}
	for i, a := range c.Answers {
		key := c.Keys[i]
		if key == "" {
			key = a.ID
		}
		title := a.Title
		if c.Kind == valuation.CheckVariant {
			title = a.ID + ": " + title
		}
		g.add(toned(strong, key), words(clipped(title, titleRunes)), toned(faint, percent(a.Chance)))
		if a.Stop != "" {
			g.note("ends the deal: " + clipped(a.Stop, noteRunes))
		}
	}
	p.grid(g)
	if m := c.Measure; m != nil {
		text := "Can be measured: " + m.What + ", in " + m.Unit
		if m.Within > 0 {
			text += fmt.Sprintf(", to %g", m.Within)
		}
		if c.Right != "" {
			text += "; right: " + tied(c.Right)
		}
		p.note(faint, sentence(text))
	}
}

// An InspectionStep is an answer and what came of it.
type InspectionStep struct {
	Title, Answer string
	Instead       string // the answer that it took the place of, "" for none
	Before, Now   *valuation.Standing
	News          []valuation.FiredRule // rules that hold only now
}

// InspectStep prints what was answered and where to stop now.
func InspectStep(w io.Writer, s InspectionStep, o Options) error {
	p := newPrinter(o)
	p.para(plain, "", margin, clipped(s.Title, titleRunes)+": "+clipped(s.Answer, titleRunes)+".")
	if s.Instead != "" {
		p.note(plain, "In the place of: "+clipped(s.Instead, titleRunes)+".")
	}
	was, is := &s.Before.Purchase, &s.Now.Purchase
	if same(was.BreakEvenBid, is.BreakEvenBid) && same(was.CarefulBid, is.CarefulBid) && s.Before.Verdict == s.Now.Verdict {
		p.verdict(asAppraisal(s.Now))
		p.para(faint, "", margin, "Neither figure moved; "+sofar(s.Now))
	} else {
		p.standing(s.Now)
		p.para(faint, "", margin, "Stop was "+bidText(was.BreakEvenBid, was.Currency)+", careful "+bidText(was.CarefulBid, was.Currency)+"; "+sofar(s.Now))
	}
	p.fired(s.News)
	return p.writeTo(w)
}

// fired prints the rules of the family that hold.
func (p *printer) fired(rules []valuation.FiredRule) {
	for _, r := range rules {
		p.para(warn, "", margin, capital(r.Level)+": "+sentence(clipped(r.Text, noteRunes)))
	}
}

func same(a, b *valuation.Money) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Equal(b.Decimal)
}

// bidText is a bid, or none.
func bidText(m *valuation.Money, currency string) string {
	if m == nil {
		return "none"
	}
	return tied(amount(m, currency))
}

// sofar says how far the inspection has come.
func sofar(s *valuation.Standing) string {
	return fmt.Sprintf("%s in %s, %s of what counts looked at.", counted(s.Checked, "check"), minutes(s.Minutes), percent(s.Coverage))
}

// InspectObjection prints why an answer is none.
func InspectObjection(w io.Writer, diags diag.List, o Options) error {
	p := newPrinter(o)
	for _, d := range diags {
		p.para(warn, "", margin, capital(sentence(clipped(d.Summary, noteRunes))))
		if d.Expected != "" {
			p.note(faint, "Expected "+clipped(d.Expected, noteRunes))
		}
		if d.Try != "" {
			p.note(faint, "Try "+clipped(d.Try, noteRunes))
		}
	}
	return p.writeTo(w)
}
