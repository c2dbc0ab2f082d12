package page

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestTimelineTicks(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     []string
	}{
		{"2023-10-03", "2026-03-14", []string{"2024", "2025", "2026"}},
		{"2023-01-01", "2026-03-14", []string{"2024", "2025", "2026"}},
		{"2015-06-01", "2026-03-14", []string{"2020", "2025"}},
		{"2019-06-01", "2026-03-14", []string{"2020", "2022", "2024", "2026"}},
		{"1901-06-01", "2026-03-14", []string{"1950", "2000"}},
		{"2026-02-01", "2026-03-14", []string{"Apr 25", "Jul 25", "Oct 25", "Jan 26"}},
		{"2025-01-01", "2026-03-14", []string{"Jan 25", "Jul 25", "Jan 26"}},
	} {
		line := newTimeline(day(c.from), day(c.to), 0, 100)
		var got []string
		last := -1.0
		for _, tick := range line.ticks(4) {
			got = append(got, tick.label)
			if tick.at <= last || tick.at > 100 {
				t.Errorf("%s to %s: %s stands at %v after %v", c.from, c.to, tick.label, tick.at, last)
			}
			last = tick.at
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s to %s:\n%s", c.from, c.to, diff)
		}
	}
}

func TestTimelinePlace(t *testing.T) {
	line := newTimeline(day("2024-01-01"), day("2026-01-01"), 10, 90)
	for text, want := range map[string]float64{"2024-01-01": 10, "2026-01-01": 90, "2025-01-01": 50.05, "2020-01-01": 10, "2027-01-01": 90} {
		if got := line.place(day(text)); math.Abs(got-want) > 0.005 {
			t.Errorf("%s stands at %v, want %v", text, got, want)
		}
	}
}
