package main

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var (
	stall = []string{"hand"}
	track = []string{"hand", "track"}
	told  = []string{"seller"}
)

// plain is a find that nothing is known of.
func plain(findings ...finding) find {
	return find{Title: "t", Family: largest, Date: lastRate, Buy: "stall-cash", Ask: "45.00 EUR", Fixed: true, Findings: findings}
}

var some = []finding{
	{Point: "pantograph-front", State: "missing", By: "hand"},
	{Feature: "livery", Option: "red", By: "hand"},
	{Symptom: "no-movement", Present: true, By: "track"},
	{Point: "box", By: "hidden"},
	{Point: "paint", State: "worn", By: "seller"},
	{Variant: "6036", By: "seller"},
}

// TestCourse: what the page is told of a find does not depend on what it asked
// before: findings one after the other, one taken back, checks passed over,
// another price, and back again.
func TestCourse(t *testing.T) {
	var asked []question
	add := func(f find, here []string, passed ...string) {
		asked = append(asked, question{Find: f, Draws: 500, Here: here, Passed: passed})
	}
	for i := range len(some) + 1 {
		add(plain(some[:i]...), stall)
	}
	add(plain(slices.Delete(slices.Clone(some), 2, 3)...), stall)
	add(plain(some[:3]...), stall, "point:body")
	add(plain(some[:3]...), stall, "point:body", "variant:"+largest, "symptom:hums")
	add(plain(some[:4]...), stall, "point:body", "variant:"+largest, "symptom:hums")
	add(plain(some[:4]...), stall, "point:body")
	add(plain(some[:4]...), told)
	add(plain(some[:5]...), track)
	dearer := plain(some[:5]...)
	dearer.Ask = "60.00 EUR"
	add(dearer, track)
	add(plain(some[:1]...), stall)
	kept := opened(t)
	for i, q := range asked {
		got, want := ask[figureView](t, kept, "figure", q), ask[figureView](t, opened(t), "figure", q)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("question %d: %s", i, diff)
		}
	}
}

// TestContradictionOnCourse: a finding that contradicts those before it is
// refused, and taking it back brings the former figures.
func TestContradictionOnCourse(t *testing.T) {
	d := opened(t)
	q := question{Find: plain(finding{Point: "body", State: "sound", By: "hand"}), Draws: 500, Here: stall}
	before := ask[figureView](t, d, "figure", q)
	bad := q
	bad.Find = plain(append(slices.Clone(q.Find.Findings), finding{Point: "body", State: "cracked", By: "hand"})...)
	if r := call[any](t, d, "figure", bad); r.Error == nil {
		t.Fatal("a contradiction has figures")
	}
	if diff := cmp.Diff(before, ask[figureView](t, d, "figure", q)); diff != "" {
		t.Error(diff)
	}
}

// TestAnswers goes through the checks in their order, with the likeliest answer
// each: every answer becomes a finding that counts, no check comes twice, and in
// the end none is left that pays.
func TestAnswers(t *testing.T) {
	for name, here := range map[string][]string{"at a stall": stall, "with a track": track, "by the seller": told} {
		t.Run(name, func(t *testing.T) {
			d := opened(t)
			q := question{Find: plain(), Draws: 500, Here: here}
			seen := map[string]bool{}
			v := ask[figureView](t, d, "figure", q)
			for ; v.Next != nil; v = ask[figureView](t, d, "figure", q) {
				if seen[v.Next.Key] {
					t.Fatalf("%s comes twice", v.Next.Key)
				}
				seen[v.Next.Key] = true
				a := q
				a.Key, a.Answer = v.Next.Key, likeliest(v.Next)
				f := ask[finding](t, d, "answer", a)
				if !slices.Contains(here, f.By) {
					t.Errorf("%s is settled by %s", v.Next.Key, f.By)
				}
				q.Find.Findings = append(q.Find.Findings, f)
			}
			if len(seen) == 0 || v.Outlook == "look-on" {
				t.Errorf("after %d checks the outlook is %s", len(seen), v.Outlook)
			}
			if fresh := ask[figureView](t, opened(t), "figure", q); !cmp.Equal(fresh, v) {
				t.Error(cmp.Diff(fresh, v))
			}
		})
	}
}

func likeliest(c *checkView) string {
	return slices.MaxFunc(c.Answers, func(a, b answerView) int {
		if a.Chance < b.Chance {
			return -1
		}
		return 1
	}).ID
}

func TestAnswerFaults(t *testing.T) {
	d := opened(t)
	for _, c := range []struct{ key, answer string }{{"point:nowhere", "sound"}, {"point:body", "melted"}, {"symptom:hums", "yes"}} {
		q := question{Find: plain(), Draws: 500, Here: stall, Key: c.key, Answer: c.answer}
		if r := call[any](t, d, "answer", q); r.Error == nil || r.Error.Broken {
			t.Errorf("%s is %s: %+v", c.key, c.answer, r)
		}
	}
}

// TestAbsent: points that a catalogue number does not have are left out, and
// those that are settled stay.
func TestAbsent(t *testing.T) {
	d := opened(t)
	q := question{Find: plain(finding{Variant: "6047", By: "hand"}, finding{Point: "body", State: "sound", By: "hand"}), Draws: 500, Here: stall}
	v := ask[figureView](t, d, "figure", q)
	f, _ := d.library.Family(largest)
	var want []string
	for _, p := range f.Points {
		if !p.Applies[f.VariantIndex("6047")] {
			want = append(want, p.ID)
		}
	}
	if diff := cmp.Diff(want, v.Absent); diff != "" || len(want) == 0 {
		t.Error(diff)
	}
	if len(v.Variants) != 1 || v.Variants[0].ID != "6047" {
		t.Errorf("it may be %+v", v.Variants)
	}
}

// BenchmarkStart is a find opened, BenchmarkChange one finding more: the figures
// and the next check, from as many draws as the page takes at once and from all.
func BenchmarkStart(b *testing.B) {
	for _, draws := range []int{2000, 4000, 20000} {
		b.Run(fmt.Sprint("draws=", draws), func(b *testing.B) {
			d := opened(b)
			for b.Loop() {
				d.current = nil
				ask[figureView](b, d, "figure", question{Find: plain(), Draws: draws, Here: track})
			}
		})
	}
}

func BenchmarkChange(b *testing.B) {
	for _, draws := range []int{2000, 4000, 20000} {
		b.Run(fmt.Sprint("draws=", draws), func(b *testing.B) {
			d := opened(b)
			for b.Loop() {
				b.StopTimer()
				ask[figureView](b, d, "figure", question{Find: plain(), Draws: draws, Here: track})
				b.StartTimer()
				ask[figureView](b, d, "figure", question{Find: plain(some[:1]...), Draws: draws, Here: track})
			}
		})
	}
}
