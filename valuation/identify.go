package valuation

import (
	"cmp"
	"math"
	"slices"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// Sighted is an option seen of a feature.
type Sighted struct{ Feature, Option string }

// An Identification says which catalogue number a model may be, and which
// feature to look at next.
type Identification struct {
	Family   string        `json:"family"`
	Title    string        `json:"-"`
	Variants []Chance      `json:"variants"` // likeliest first, the impossible left out
	Bits     float64       `json:"bits"`     // entropy of the catalogue number
	Next     []FeatureTell `json:"next"`     // by expected drop in entropy, or by money where a listing is given
	Currency string        `json:"currency,omitempty"`
}

// FeatureTell is a feature not yet settled.
type FeatureTell struct {
	ID      string   `json:"id"`
	Title   string   `json:"-"`
	Tell    string   `json:"-"`
	Options []Chance `json:"options"`
	Bits    float64  `json:"bits"`            // expected drop in entropy (Shannon, 1948), in bits
	Worth   *Money   `json:"worth,omitempty"` // of knowing it, where a listing is given
}

// Identify infers the catalogue number of a family from features seen in the
// hand.
func (l *Library) Identify(family string, seen []Sighted) (*Identification, diag.List) {
	x := &Listing{Family: family}
	s, diags := l.Settings()
	f, more := l.Family(family)
	if diags = append(diags, more...); diags.HasErrors() {
		return nil, diags.Sorted()
	}
	x.sight(seen)
	a := &appraiser{listing: x, settings: s, family: f}
	if diags = a.resolve(); !diags.HasErrors() {
		diags = a.infer()
	}
	if diags.HasErrors() {
		return nil, diags.Sorted()
	}
	return a.identify(), nil
}

// IdentifyListing does the same for a listing's model, with features seen
// besides, and values each feature in money.
func (l *Library) IdentifyListing(x *Listing, seen []Sighted, o Options) (*Identification, diag.List) {
	more := *x
	more.Findings = slices.Clone(x.Findings)
	more.sight(seen)
	a, diags := l.run(&more, o)
	if a == nil {
		return nil, diags
	}
	id := a.identify()
	if a.whole() {
		a.valueFeatures(id)
	}
	return id, diags
}

// sight adds features seen in the hand to the findings.
func (x *Listing) sight(seen []Sighted) {
	for _, s := range seen {
		x.Findings = append(x.Findings, Finding{Feature: s.Feature, Option: s.Option, By: ByHand})
	}
}

func (a *appraiser) identify() *Identification {
	chances := a.posterior.Variants()
	id := &Identification{
		Family: a.family.ID, Title: a.family.Title,
		Variants: a.variants(), Bits: round9(entropy(chances)), Next: []FeatureTell{},
	}
	for i := range a.family.Features {
		if t := a.tell(i, chances); t.Bits > 1e-9 {
			id.Next = append(id.Next, t)
		}
	}
	slices.SortStableFunc(id.Next, func(x, y FeatureTell) int { return cmp.Compare(y.Bits, x.Bits) })
	return id
}

// tell is what seeing feature i would say of the catalogue number.
func (a *appraiser) tell(i int, chances []float64) FeatureTell {
	f := &a.family.Features[i]
	by := make([][]float64, len(f.Options))
	for o := range by {
		by[o] = make([]float64, len(chances))
	}
	sums := make([]float64, len(f.Options))
	for v, p := range chances {
		o := a.family.Variants[v].Fit[i]
		by[o][v] += p
		sums[o] += p
	}
	t := FeatureTell{ID: f.ID, Title: f.Title, Tell: f.Tell, Bits: entropy(chances)}
	for o, p := range sums {
		t.Options = append(t.Options, Chance{ID: f.Options[o], Title: spoken(f.Options[o]), Chance: Share(p)})
		if p > 0 {
			for v := range by[o] {
				by[o][v] /= p
			}
			t.Bits -= float64(p * entropy(by[o]))
		}
	}
	t.Bits = round9(t.Bits)
	return t
}

// valueFeatures values knowing what each feature left the factory with.
func (a *appraiser) valueFeatures(id *Identification) {
	id.Currency = string(a.settings.Currency)
	out := a.report()
	q := &asker{cases: a.expected.cases, values: [][]float64{a.expected.value}, g: a.prospect(out)}
	for n := range id.Next {
		t := &id.Next[n]
		i := a.family.FeatureIndex(t.ID)
		worth := a.home(q.worth(featureInquiry(a.family, i, q.cases)))
		t.Worth = &worth
	}
	slices.SortStableFunc(id.Next, func(x, y FeatureTell) int { return y.Worth.Cmp(x.Worth.Decimal) })
}

// featureInquiry asks which option of a feature the model left the factory with.
func featureInquiry(f *checklist.Family, feature int, c *belief.Cases) *inquiry {
	answers := make([]uint8, len(c.Variant))
	for k, v := range c.Variant {
		answers[k] = uint8(f.Variants[v].Fit[feature])
	}
	return &inquiry{answers: answers, count: len(f.Features[feature].Options)}
}

// entropy is Shannon's, in bits (A mathematical theory of communication, 1948).
func entropy(p []float64) float64 {
	h := 0.0
	for _, x := range p {
		if x > 0 {
			h -= float64(x * math.Log2(x))
		}
	}
	return h
}

// round9 cuts off what platforms may differ in.
func round9(f float64) float64 { return math.Round(f*1e9) / 1e9 }
