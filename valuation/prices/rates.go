package prices

import (
	"fmt"
	"sort"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// The rates are the European Central Bank's euro foreign exchange reference
// rates, or laid out like them:
// https://www.ecb.europa.eu/stats/policy_and_exchange_rates/euro_reference_exchange_rates/html/index.en.html.
// The bank publishes them on working days, for information; it publishes no
// rates between other currencies than the euro.

// MaxRateAge is how many days before the day of a conversion its rate may be.
// The European Central Bank's history has had no gap of more than 5 days
// between two rows, so a rate that is missing for longer is suspended, or the
// file is not up to date.
const MaxRateAge = 10

// base is the currency that all rates of a file are for one unit of.
const base money.Currency = "EUR"

// Rates are the exchange rates of the days of a file. They are not changed
// after [ReadRates]. The zero Rates, and a nil one, know no rate.
type Rates struct {
	file    string
	absent  bool // there is no such file
	columns map[money.Currency]int
	days    []rateDay // ascending
	cells   []digits  // of all days, in the order of the file; 0 where there is no rate
}

// NoRates are the rates of a file that is not there: none, and errors say so.
func NoRates(file string) *Rates { return &Rates{file: file, absent: true} }

// rateDay is one row of the file: its rates begin at cells[at].
type rateDay struct {
	day      day
	line, at int
}

// A RateError says that there is no rate to convert with.
type RateError struct {
	File     string
	Currency money.Currency
	On       time.Time // the day of the conversion
	Last     time.Time // of the last rate before it; zero where there is none
	NoFile   bool      // there is no file of rates
	NoColumn bool      // the file has no column of the currency, whatever the day
}

// Error names the currency, the day and the last rate there was, or what keeps
// the currency from having any.
func (e *RateError) Error() string {
	name := e.File[strings.LastIndexByte(e.File, '/')+1:]
	switch {
	case e.NoFile:
		return fmt.Sprintf("there is no %s, and so no rate of %s", name, e.Currency)
	case e.NoColumn:
		return fmt.Sprintf("%s has no column %s", name, e.Currency)
	}
	last := "there is none before it"
	if !e.Last.IsZero() {
		last = "the last one is of " + e.Last.Format(time.DateOnly)
	}
	return fmt.Sprintf("no rate of %s for %s or the %d days before: %s",
		e.Currency, e.On.Format(time.DateOnly), MaxRateAge, last)
}

// Rate is what one unit of from is worth in to, as an exact fraction, and the
// day it is of. Rates are the last on or before the day on, at most
// [MaxRateAge] days old, else the error is a [*RateError]. Two currencies
// other than the euro are crossed through it; where their rates are of
// different days, the day is the older. Equal currencies need no rate: 1, on
// the day itself.
func (x *Rates) Rate(from, to money.Currency, on time.Time) (money.Ratio, time.Time, error) {
	rate, day, err := x.rate(from, to, dayOf(on))
	if err != nil {
		return money.Ratio{}, time.Time{}, err
	}
	return rate, day.time(), nil
}

// float is the rate of a day as a float.
func (x *Rates) float(from, to money.Currency, on day) (float64, error) {
	if from == to {
		return 1, nil
	}
	rate, _, err := x.rate(from, to, on)
	return rate.Float(), err
}

// rate is Rate with numbered days.
func (x *Rates) rate(from, to money.Currency, on day) (money.Ratio, day, error) {
	if from == to {
		return money.WholeRatio(decimal.NewFromInt(1)), on, nil
	}
	den, fromDay, err := x.perBase(from, on)
	if err != nil {
		return money.Ratio{}, 0, err
	}
	num, toDay, err := x.perBase(to, on)
	if err != nil {
		return money.Ratio{}, 0, err
	}
	return money.NewRatio(num, den), min(fromDay, toDay), nil
}

// perBase is what one euro is worth in a currency, and the day of that rate. A
// search by halves finds the day; from there the rows are walked back, since a
// column can be empty where others are not. In the bank's history that is a
// step or two, and for a suspended currency as far as its last rate.
func (x *Rates) perBase(c money.Currency, on day) (decimal.Decimal, day, error) {
	if c == base {
		return decimal.NewFromInt(1), on, nil
	}
	if x == nil {
		return decimal.Decimal{}, 0, &RateError{Currency: c, On: on.time()}
	}
	column, known := x.columns[c]
	if !known {
		err := x.missing(c, on)
		err.NoColumn = !x.absent && x.file != ""
		return decimal.Decimal{}, 0, err
	}
	after := sort.Search(len(x.days), func(i int) bool { return x.days[i].day > on })
	for i := after - 1; i >= 0; i-- {
		rate := x.cells[x.days[i].at+column]
		switch {
		case rate == 0:
		case on-x.days[i].day > MaxRateAge:
			err := x.missing(c, on)
			err.Last = x.days[i].day.time()
			return decimal.Decimal{}, 0, err
		default:
			return rate.decimal(), x.days[i].day, nil
		}
	}
	return decimal.Decimal{}, 0, x.missing(c, on)
}

// missing is the error where there is no rate of a currency for a day.
func (x *Rates) missing(c money.Currency, on day) *RateError {
	return &RateError{File: x.file, NoFile: x.absent, Currency: c, On: on.time()}
}

// File is the name the rates were read under, "" for a nil Rates.
func (x *Rates) File() string {
	if x == nil {
		return ""
	}
	return x.file
}

// Span is the first and the last day of the file; ok is false if it has none.
func (x *Rates) Span() (first, last time.Time, ok bool) {
	if x == nil || len(x.days) == 0 {
		return time.Time{}, time.Time{}, false
	}
	return x.days[0].day.time(), x.days[len(x.days)-1].day.time(), true
}
