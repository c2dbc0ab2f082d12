package belief_test

import (
	"fmt"

	"lotgauge/valuation/belief"
)

// A seller calls it 6001, which has an early roof; the photo shows a late one.
// Either it is another variant, or the roof has been swapped.
func Example() {
	m := &belief.Model{
		Variants:  []belief.Variant{{ID: "6001", Made: 6, Fit: []int{0}}, {ID: "6043", Made: 1, Fit: []int{1}}},
		Features:  []belief.Feature{{ID: "roof", Options: []string{"early", "late"}}},
		Histories: []belief.History{{ID: "cabinet", Odds: 3}, {ID: "tampered", Odds: 1}},
		Points: []belief.Point{{ID: "roof", Feature: 0, Applies: []bool{true, true}, States: []belief.State{
			{ID: "sound", Odds: []float64{95, 60}, Original: true, Complete: true},
			{ID: "swapped", Odds: []float64{5, 40}, Original: false, Complete: true},
		}}},
	}
	findings := []belief.Finding{
		{Kind: belief.VariantIs, Value: 0, Trust: 0.75, Label: "seller: 6001"},
		{Kind: belief.PointOption, Subject: 0, Value: 1, Trust: 0.95, Label: "photo: late roof"},
	}
	p, err := belief.InferFindings(m, findings, belief.Hidden{Sound: 0.4, Faulty: 0.6})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("6001 %.2f, 6043 %.2f\n", p.Variants()[0], p.Variants()[1])
	fmt.Printf("6001 with a swapped roof %.2f\n", p.Variants()[0]*p.PointGiven(0, 0)[1])
	fmt.Printf("tampered with %.2f\n", p.Histories()[1])

	findings = append(findings, belief.Finding{Kind: belief.VariantIs, Value: 0, Trust: 1, Label: "number plate: 6001"},
		belief.Finding{Kind: belief.PointState, Subject: 0, Value: 0, Trust: 1, Label: "hand: roof sound"},
		belief.Finding{Kind: belief.PointOption, Subject: 0, Value: 1, Trust: 1, Label: "hand: late roof"})
	_, err = belief.InferFindings(m, findings, belief.Hidden{Sound: 0.4, Faulty: 0.6})
	fmt.Println(err)
	// Output:
	// 6001 0.79, 6043 0.21
	// 6001 with a swapped roof 0.59
	// tampered with 0.50
	// these contradict each other: number plate: 6001; hand: roof sound; hand: late roof
}
