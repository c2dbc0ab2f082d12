package page

import (
	"strconv"
	"time"
)

// A timeline maps days onto percents of a plot's width.
type timeline struct {
	from, to time.Time
	scale
}

// newTimeline covers the days from first to last, a year at least, so that a
// few rows of one week do not look like a history.
func newTimeline(first, last time.Time, near, far float64) timeline {
	if year := last.AddDate(-1, 0, 0); first.After(year) {
		first = year
	}
	t := timeline{from: first, to: last}
	t.scale = scale{0, t.days(last), near, far}
	return t
}

// days is the time since the first day.
func (t timeline) days(day time.Time) float64 { return day.Sub(t.from).Hours() / 24 }

// place is where a day stands.
func (t timeline) place(day time.Time) float64 { return t.at(t.days(day)) }

// A dayTick is a day named on a timeline.
type dayTick struct {
	at    float64 // percent
	label string
}

// ticks are at most most first days of years; with fewer than two of them,
// first days of months instead.
func (t timeline) ticks(most int) []dayTick {
	if years := t.years(most); len(years) > 1 {
		return years
	}
	return t.months(most)
}

func (t timeline) years(most int) []dayTick {
	for _, every := range []int{1, 2, 5, 10, 20, 50, 100, 1000} {
		first := (t.from.Year() + every) / every * every
		if (t.to.Year()-first)/every+1 > most {
			continue
		}
		var out []dayTick
		for y := first; y <= t.to.Year(); y += every {
			out = append(out, dayTick{t.place(newYear(y)), strconv.Itoa(y)})
		}
		return out
	}
	return nil
}

func (t timeline) months(most int) []dayTick {
	for _, every := range []int{1, 2, 3, 6, 12} {
		var out []dayTick
		for m := newYear(t.from.Year()); !m.After(t.to); m = m.AddDate(0, every, 0) {
			if !m.Before(t.from) {
				out = append(out, dayTick{t.place(m), m.Format("Jan 06")})
			}
		}
		if len(out) <= most {
			return out
		}
	}
	return nil
}

func newYear(y int) time.Time { return time.Date(y, time.January, 1, 0, 0, 0, 0, time.UTC) }
