package prices

import (
	"testing"
	"time"
)

// Every day of 300 years is read as package time has it, and written back.
func TestParseDayAgreesWithTime(t *testing.T) {
	until := time.Date(2200, 1, 1, 0, 0, 0, 0, time.UTC)
	for d := time.Date(firstYear, 1, 1, 0, 0, 0, 0, time.UTC); d.Before(until); d = d.AddDate(0, 0, 1) {
		text := d.Format(time.DateOnly)
		got, ok := parseDay(text)
		if !ok || !got.time().Equal(d) || got.String() != text || dayOf(d) != got {
			t.Fatalf("parseDay(%q) is %v, %v", text, got, ok)
		}
	}
}

func TestParseDayRefuses(t *testing.T) {
	for _, text := range []string{"", "2026", "2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31",
		"2026-06-00", "26-03-14", "2026-3-14", "2026/03/14", "14.03.2026", "2026-03-14 ", "1899-12-31",
		"0206-03-14", "-026-03-14", "2026-+3-14", "2026-0a-14", "20x6-03-14", "x026-03-14", "２０２６-03"} {
		if d, ok := parseDay(text); ok {
			t.Errorf("parseDay(%q) is %v", text, d)
		}
	}
	if _, ok := parseDay("2000-02-29"); !ok {
		t.Error("2000 was a leap year")
	}
}

// The day of a time is the one on the calendar at its place.
func TestDayOfPlace(t *testing.T) {
	far := time.FixedZone("far", 13*60*60)
	for _, hour := range []int{0, 12, 23} {
		if d := dayOf(time.Date(2026, 3, 14, hour, 59, 0, 0, far)); d.String() != "2026-03-14" {
			t.Errorf("at %d o'clock it is %v", hour, d)
		}
	}
	if d := dayOf(time.Date(1969, 12, 31, 23, 0, 0, 0, time.UTC)); d != -1 {
		t.Errorf("the day before 1970 is %d", d)
	}
}
