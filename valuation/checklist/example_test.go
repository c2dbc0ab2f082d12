package checklist_test

import (
	"fmt"
	"strings"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

const railcar = `
format = 1
id = "tarnside-r2"
title = "Tarnside R2 railcar"
grade = [{ id = "good", score = 80, factor = 1 }]
feature = [{ id = "lamps", options = ["brass", "black"] }]

[[variant]]
id = "410"
fit = { lamps = "brass" }
[[variant]]
id = "415"
fit = { lamps = "black" }

[[point]]
id = "lamp"
feature = "lamps"
state = [{ id = "sound" }, { id = "missing", score = 0, complete = false, needs = ["lamp-{lamps}"] }]

[[part]]
id = "lamp-brass"
`

// A part that one of the variants would need is not there.
func ExampleRead() {
	doc := diag.ReadDocument("r2.toml", strings.NewReader(railcar))
	checklist.Read(doc, nil)
	fmt.Println(doc.Diagnostics().Err())
	// Output:
	// r2.toml:18:84: point[1].state[2].needs[1]: "lamp-{lamps}" is "lamp-black" for variant "415", an unknown part: expected the id of a [[part]]; try "lamp-brass"
}

// Which part a remedy needs depends on the variant.
func ExampleSupply() {
	doc := diag.ReadDocument("r2.toml", strings.NewReader(railcar+"[[part]]\nid = \"lamp-black\"\n"))
	f := checklist.Read(doc, nil)
	missing := f.Points[0].States[1]
	for v, variant := range f.Variants {
		fmt.Println(variant.ID, "needs", f.Parts[missing.Needs[0].Part[v]].ID)
	}
	// Output:
	// 410 needs lamp-brass
	// 415 needs lamp-black
}

// A rule that can never fire is found by proving only.
func ExampleProve() {
	text := railcar + `
[[part]]
id = "lamp-black"
[[rule]]
id = "patched"
level = "caution"
when = { all = [{ figure = "originality", below = "60%" }, { not = { figure = "originality", below = "70%" } }] }
say = "Originality is {originality}."
`
	doc := diag.ReadDocument("r2.toml", strings.NewReader(text))
	f := checklist.Read(doc, nil)
	fmt.Println("read:", doc.Diagnostics().Err())
	checklist.Prove(f, doc)
	fmt.Println("proved:", doc.Diagnostics().Err())
	// Output:
	// read: <nil>
	// proved: r2.toml:28:8: rule[1].when: the rule can never fire: the bounds on originality contradict each other: expected a condition that can hold
}
