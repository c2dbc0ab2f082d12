package valuation

import (
	"cmp"
	"math"
	"slices"
	"time"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// leastFitWeight is the weight under which a row does not count: that of twenty
// half-lives.
const leastFitWeight = 1e-6

// familyFit is the work of one FitFamily.
type familyFit struct {
	market  *market
	uses    []prices.Use
	has     [][]int        // the factors of each use, places in factors
	factors []FittedFactor // those that rows have, and all grades and variants of the family
	place   map[string]int // of a factor by kind and id
}

// variantFactor is the kind of the terms for the variants, which are fitted and
// not reported: what a variant is worth is for estimates to say.
const variantFactor = "variant"

// newFamilyFit knows the variants and grades of the family.
func newFamilyFit(m *market) *familyFit {
	f := &familyFit{market: m, place: map[string]int{}}
	for _, v := range m.family.Variants {
		f.factor(FittedFactor{Kind: variantFactor, ID: v.ID, Title: "variant " + v.ID})
	}
	for _, g := range m.family.Grades {
		f.factor(FittedFactor{Kind: GradeFactor, ID: g.ID, Title: "grade " + spoken(g.ID), File: g.Factor})
	}
	return f
}

// factor is the place of a factor, which is added if it is new.
func (f *familyFit) factor(x FittedFactor) int {
	at, known := f.place[x.Kind+" "+x.ID]
	if !known {
		at = len(f.factors)
		f.place[x.Kind+" "+x.ID] = at
		f.factors = append(f.factors, x)
	}
	return at
}

// collect makes the rows of all variants comparable. A grade or a state that the
// family has not is reported.
func (f *familyFit) collect() {
	for v := range f.market.family.Variants {
		item := prices.Item{ID: modelID(f.market.family, v), Factor: func(r prices.Row) (float64, error) {
			_, err := f.factorsOf(v, r)
			return 1, err
		}}
		e, err := f.market.table.Estimate(item, f.market.rules, f.market.rates, f.market.on)
		if err != nil {
			f.market.fail(err)
		}
		for _, u := range e.Uses {
			if has, err := f.factorsOf(v, u.Row); err == nil && u.Weight >= leastFitWeight {
				f.uses, f.has = append(f.uses, u), append(f.has, has)
			}
		}
	}
}

// factorsOf are the factors that a row of a variant has.
func (f *familyFit) factorsOf(v int, r prices.Row) ([]int, error) {
	family := f.market.family
	has := []int{f.place[variantFactor+" "+family.Variants[v].ID]}
	if r.Grade == "" {
		has = append(has, f.factor(FittedFactor{Kind: GradeFactor, Title: "no grade given", File: 1}))
	} else if _, err := gradeFactor(family, r.Grade); err != nil {
		return nil, err
	} else {
		has = append(has, f.place[GradeFactor+" "+r.Grade])
	}
	for _, one := range lackings(r.Lacking) {
		file, err := lackingFactor(family, one)
		if err != nil {
			return nil, err
		}
		p := &family.Points[family.PointIndex(one.point)]
		title := lower(p.Title) + ": " + stateTitle(&p.States[p.StateIndex(one.state)])
		has = append(has, f.factor(FittedFactor{Kind: LackingFactor, ID: one.point + ":" + one.state, Title: title, File: file}))
	}
	if r.Asked {
		has = append(has, f.factor(FittedFactor{Kind: AskedFactor, ID: AskedFactor, Title: "asked, to what is paid", File: f.market.rules.AskedFactor}))
	}
	return has, nil
}

// mostRows is the factor of a kind that the most rows have, the first of equals.
func (f *familyFit) mostRows(kind string) int {
	most, at := -1, 0
	for i, x := range f.factors {
		if n := f.rows(i); x.Kind == kind && n > most {
			most, at = n, i
		}
	}
	return at
}

// rows is how many rows have a factor.
func (f *familyFit) rows(at int) int {
	n := 0
	for _, has := range f.has {
		if slices.Contains(has, at) {
			n++
		}
	}
	return n
}

// fit fits the factors to the rows; nil where something keeps it from that,
// which is reported. The terms are all factors, those of the base hold for no
// row: that is what the constant is.
func (f *familyFit) fit() *FamilyFit {
	if len(f.market.diags) > 0 {
		return nil
	}
	if len(f.uses) == 0 {
		f.market.fail(diag.Diagnostic{
			Severity: diag.Error, Pos: diag.Pos{File: f.market.table.File()},
			Summary:  "no price of family " + quoted(f.market.family.ID) + " up to " + f.market.on.Format(time.DateOnly),
			Expected: "rows for items such as " + modelID(f.market.family, 0),
		})
		return nil
	}
	base := f.mostRows(GradeFactor)
	fit, err := prices.FitTerms(f.design(base, f.mostRows(variantFactor)))
	if err != nil {
		f.market.fail(err)
		return nil
	}
	out := &FamilyFit{
		Family: f.market.family.ID, On: f.market.on, Base: f.factors[base].ID,
		Rows: fit.Rows, SetAside: len(f.uses) - fit.Rows, Freedom: fit.Freedom, Spread: fit.Spread,
	}
	out.Factors = f.report(fit, base)
	return out
}

// design is the rows and the names of the terms. Prices are taken as paid or
// asked, before any factor of file or settings.
func (f *familyFit) design(base, variant int) ([]prices.FitRow, []string) {
	rows := make([]prices.FitRow, len(f.uses))
	for i, u := range f.uses {
		rows[i] = prices.FitRow{Log: math.Log(u.Home), Weight: u.Weight}
		for _, at := range f.has[i] {
			if at != base && at != variant {
				rows[i].Terms = append(rows[i].Terms, at)
			}
		}
	}
	return rows, ids(f.factors, func(x FittedFactor) string { return x.Title })
}

// report is the fitted factors in the order of [FamilyFit.Factors].
func (f *familyFit) report(fit *prices.Fit, base int) []FittedFactor {
	var out []FittedFactor
	for at, x := range f.factors {
		term := fit.Terms[at]
		x.Rows, x.Known, x.Alias = term.Rows, term.Known, inWords(term.Alias)
		switch {
		case x.Kind == variantFactor:
			continue
		case at == base:
			x.Rows, x.Known, x.Alias = f.kept(fit, base), fit.Freedom > 0, nil
			if x.Known {
				x.Fitted, x.Low, x.High = x.File, x.File, x.File
			}
		case !term.Known:
		case x.Kind == GradeFactor:
			worth := f.factors[base].File
			x.Fitted, x.Low, x.High = worth*term.Factor, worth*term.Low, worth*term.High
		case x.Kind == AskedFactor: // what is asked is more than what is paid
			x.Fitted, x.Low, x.High = 1/term.Factor, 1/term.High, 1/term.Low
		default:
			x.Fitted, x.Low, x.High = term.Factor, term.Low, term.High
		}
		out = append(out, x)
	}
	order := []string{GradeFactor, LackingFactor, AskedFactor}
	slices.SortStableFunc(out, func(a, b FittedFactor) int {
		lacking := 0
		if a.Kind == LackingFactor {
			lacking = cmp.Or(cmp.Compare(b.Rows, a.Rows), cmp.Compare(a.ID, b.ID))
		}
		return cmp.Or(cmp.Compare(slices.Index(order, a.Kind), slices.Index(order, b.Kind)), lacking)
	})
	return out
}

// kept is how many rows that were not set aside have a factor.
func (f *familyFit) kept(fit *prices.Fit, at int) int {
	n := 0
	for i, has := range f.has {
		if slices.Contains(has, at) && !fit.SetAside[i] {
			n++
		}
	}
	return n
}

// inWords names the constant among the aliases of a term.
func inWords(names []string) []string {
	for i, name := range names {
		if name == prices.Constant {
			names[i] = "all rows"
		}
	}
	return names
}
