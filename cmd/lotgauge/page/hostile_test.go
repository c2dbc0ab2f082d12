package page

import (
	"fmt"
	"reflect"
	"strings"

	"lotgauge/valuation"
)

// Texts that somebody may put into a listing to break a page, or break it
// without meaning to.
const (
	markup   = `</style></title><script>alert(1)</script><img src="//x" onerror='alert(2)'>&amp; "q" {{.}}`
	controls = "\x1b[31mred\x07 \x00nul \u202eesrever\u202c \u2066isolate\u2069 \u200fmark \u2028line \xff"
	rightTo  = "قطار كهربائي أحمر (6043) עברית"
	pictures = "🚂👩‍🔧🇩🇪👍🏽 é̈"
)

// hostile is the rich appraisal with a title of 10,000 characters and such
// texts wherever a listing or a data folder may put one.
func hostile() *valuation.Appraisal {
	a := rich()
	a.Title = strings.Repeat("LongTitleWithoutABlank", 300) + " " + markup + controls + strings.Repeat(rightTo+pictures, 80)
	a.Title = string([]rune(a.Title)[:10_000])
	r := &a.Reading
	r.FamilyTitle = rightTo + " " + markup
	r.Findings[0].Note = strings.Repeat(controls+" ", 30)
	r.Findings[1].Value = strings.Repeat("unbroken", 60)
	r.Warnings[0].Summary = markup
	r.Rests = append(r.Rests, valuation.Input{Name: markup, Text: strings.Repeat("folder/", 90)})
	a.Variants[0].Title = strings.Repeat(pictures, 40)
	a.Points[0].Title, a.Points[1].Area = strings.Repeat("Pantographpantograph", 20), markup
	a.Parts[1].Title, a.Parts[1].Cheapest = rightTo, strings.Repeat("cheap", 100)
	a.Purchase.SheetTitle = markup + rightTo
	a.Questions[1].Ask[`x" onload="alert(3)`] = markup
	a.Rules[0].Text = strings.Repeat("A rule that goes on. ", 60)
	r.Steps[1].Title = strings.Repeat("wornout", 40)
	r.Steps[0].Amount, r.Steps[6].Amount = cash("123456789012345.28"), cash("123456789012221.96")
	r.Models[0].Title = markup
	return a
}

// poisoned is the rich appraisal with a hostile text before the content of every
// string there is, found by walking the value: a field added later is covered.
func poisoned(poison string) (a *valuation.Appraisal, places int) {
	a = unpriced()
	full := rich()
	a.Worth, a.Questions, a.Reading.Steps, a.Reading.Worths = full.Worth, full.Questions, full.Reading.Steps, full.Reading.Worths
	a.Reading.Reasons, a.Reading.Verdict = walkAway().Reading.Reasons, valuation.WalkAway
	poison += " "
	spoil(reflect.ValueOf(a), poison, &places)
	return a, places
}

func spoil(v reflect.Value, poison string, places *int) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			spoil(v.Elem(), poison, places)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				spoil(v.Field(i), poison, places)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			spoil(v.Index(i), poison, places)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			v.SetMapIndex(k, reflect.ValueOf(poison+v.MapIndex(k).String()))
			*places++
		}
	case reflect.String:
		v.SetString(poison + v.String())
		*places++
	}
}

// fixtures are all appraisals that the laws of a page are held against.
func fixtures() map[string]*valuation.Appraisal {
	out := map[string]*valuation.Appraisal{
		"rich": rich(), "walk-away": walkAway(), "unpriced": unpriced(), "hostile": hostile(), "empty": {},
	}
	for i, text := range []string{markup, controls, rightTo, pictures} {
		out[fmt.Sprintf("poisoned %d", i)], _ = poisoned(text)
	}
	return out
}
