package prices

import "time"

// day is a calendar day as days since 1 January 1970.
type day int32

// Days before firstYear are slips of the pen: nobody wrote down a price then,
// and one such row would stretch the span that scarcity is measured over.
const firstYear = 1900

// dayOf is the calendar day of t in t's own place.
func dayOf(t time.Time) day {
	year, month, d := t.Date()
	return day(time.Date(year, month, d, 0, 0, 0, 0, time.UTC).Unix() / secondsPerDay)
}

const secondsPerDay = 24 * 60 * 60

// time is midnight UTC of the day.
func (d day) time() time.Time {
	return time.Unix(int64(d)*secondsPerDay, 0).UTC()
}

// String is the day as in the files, 2026-03-14.
func (d day) String() string { return d.time().Format(time.DateOnly) }

// parseDay reads a day of the years from 1900 written as 2026-03-14, the
// extended format of ISO 8601 and the full-date of RFC 3339. It is
// called for every row, and time.Parse does far more than is needed.
func parseDay(text string) (day, bool) {
	if len(text) != len(time.DateOnly) || text[4] != '-' || text[7] != '-' {
		return 0, false
	}
	year, month, d := 0, twoDigits(text[5:]), twoDigits(text[8:])
	if century, rest := twoDigits(text), twoDigits(text[2:]); century >= 0 && rest >= 0 {
		year = 100*century + rest
	}
	if year < firstYear || month < 1 || month > 12 || d < 1 || d > daysIn(year, month) {
		return 0, false
	}
	return civil(year, month, d), true
}

// twoDigits reads the first two bytes of text as a number, -1 if they are not
// digits.
func twoDigits(text string) int {
	tens, ones := text[0]-'0', text[1]-'0'
	if tens > 9 || ones > 9 {
		return -1
	}
	return 10*int(tens) + int(ones)
}

// daysIn is the number of days of a month.
func daysIn(year, month int) int {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// civil numbers a day of the Gregorian calendar: days_from_civil of Howard
// Hinnant, "chrono-Compatible Low-Level Date Algorithms", for years above 0,
// https://howardhinnant.github.io/date_algorithms.html. The year is made to
// begin in March, so that the leap day is its last; an era is the 400 years
// after which the calendar repeats, 146,097 days, and day 0 of its reckoning
// lies 719,468 days before 1 January 1970.
func civil(year, month, d int) day {
	if month <= 2 {
		year--
	}
	era, ofEra := year/400, year%400
	ofYear := (153*((month+9)%12)+2)/5 + d - 1
	return day(era*146097 + ofEra*365 + ofEra/4 - ofEra/100 + ofYear - 719468)
}
