package money_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/money"
)

// seed adds every text of the error table and some that are accepted.
func seed(f *testing.F) {
	for _, test := range parseErrors {
		if len(test.text) < 100 {
			f.Add(test.text)
		}
	}
	for _, text := range []string{"45 EUR", "0.00000001 KWD", "999999999999999.99999999", "25%", "8.1 %", "1/6", "5.5/105.5"} {
		f.Add(text)
	}
}

// What is accepted is not negative, is small, and comes back from its printed
// form.
func FuzzParseAmount(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		a, err := money.ParseAmount(text)
		if err != nil {
			return
		}
		again, err := money.ParseAmount(a.String())
		if err != nil || !cmp.Equal(a, again) {
			t.Errorf("%q printed %s, read again %v, %v", text, a, again, err)
		}
	})
}

func FuzzParsePlain(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		d, err := money.ParsePlain(text)
		if err != nil {
			return
		}
		if d.Sign() < 0 || d.NumDigits() > 23 || d.Exponent() < -8 || d.Exponent() > 0 {
			t.Errorf("%q became %s, of exponent %d", text, d, d.Exponent())
		}
		if again, err := money.ParsePlain(d.String()); err != nil || !again.Equal(d) {
			t.Errorf("%q printed %s, read again %v, %v", text, d, again, err)
		}
	})
}

func FuzzParseRate(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		r, err := money.ParseRate(text)
		if err != nil {
			return
		}
		if r.Sign() < 0 {
			t.Errorf("%q became %s", text, r)
		}
		// A fraction over 1 prints as a percentage, with two digits more.
		if again, err := money.ParseRate(r.String()); err == nil && !cmp.Equal(r, again) {
			t.Errorf("%q printed %s, read again %s", text, r, again)
		}
	})
}
