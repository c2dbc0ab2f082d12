package belief

import "testing"

// tankEngine is an invented family (Quillmore T3, H0 three-rail tank engine)
// with three variants, three histories, six points and three symptoms.
func tankEngine() *Model {
	all, decoder := []bool{true, true, true}, []bool{false, false, true}
	sound := func(odds ...float64) State { return State{"sound", odds, true, true} }
	worn := func(id string, odds ...float64) State { return State{id, odds, true, true} }
	swapped := func(id string, odds ...float64) State { return State{id, odds, false, true} }
	gone := func(id string, odds ...float64) State { return State{id, odds, true, false} }
	return &Model{
		Variants:  []Variant{{"310", 4, []int{0, 0}}, {"318", 1, []int{0, 1}}, {"325", 2, []int{1, 1}}},
		Features:  []Feature{{"reverser", []string{"relay", "decoder"}}, {"lamps", []string{"brass", "black"}}},
		Histories: []History{{"cabinet", 4}, {"layout", 5}, {"tampered", 2}},
		Points: []Point{
			{"tyres", -1, all, []State{sound(1, 2, 1), worn("perished", 9, 7, 6)}},
			{"pickup", -1, all, []State{sound(3, 4, 2), worn("oxidised", 6, 2, 2), worn("weak-spring", 1, 3, 2), gone("missing", 0, 0.3, 1)}},
			{"reverser", 0, all, []State{sound(20, 15, 5), worn("dead", 1, 2, 2), {"bypassed", []float64{0.1, 0.5, 4}, false, false}}},
			{"lamps", 1, all, []State{sound(12, 8, 4), swapped("wrong-type", 0.3, 1, 2), gone("missing", 1, 2, 3)}},
			{"paint", -1, all, []State{sound(10, 5, 2), worn("chipped", 2, 5, 2), swapped("repainted", 0.2, 0.5, 3)}},
			{"smoke-unit", -1, decoder, []State{sound(5, 5, 5), worn("burnt-out", 1, 3, 2)}},
		},
		Symptoms: []Symptom{
			{"no-movement", 0.02, []Cause{{1, 1, 0.5}, {1, 3, 1}, {2, 1, 0.9}, {2, 2, 0.2}}},
			{"cuts-out", 0.04, []Cause{{1, 2, 0.85}, {1, 1, 0.4}}},
			{"one-direction", 0, []Cause{{2, 1, 0.4}, {2, 2, 0.95}}},
		},
	}
}

// Expected values: enumeration of every variant, history and state in Python
// 3.11 from the text of the design, sharing no code with this package.
func TestTankEngineListings(t *testing.T) {
	const photo, seller = 0.95, 0.75
	for _, row := range []struct {
		name                          string
		only                          int // the variant the listing names, -1 for none
		findings                      []Finding
		variants, histories, symptoms []float64
		points                        [][]float64
	}{
		{
			name: "number unknown, black lamps, reverser hidden", only: -1,
			findings: []Finding{
				{Kind: FeatureOption, Subject: 1, Value: 1, Trust: seller},
				{Kind: PointOption, Subject: 3, Value: 1, Trust: photo},
				{Kind: VariantIs, Value: 1, Trust: 0.6},
				{Kind: PointHidden, Subject: 2},
			},
			variants:  []float64{0.0683338218337864, 0.5589997068997262, 0.37266647126648267},
			histories: []float64{0.37505270895077614, 0.44698136005759603, 0.17796593099162342},
			symptoms:  []float64{0.3497058521971121, 0.3726023738769682, 0.14616654118950745},
			points: [][]float64{
				{0.1622581664463623, 0.8377418335536332},
				{0.355613268876583, 0.3720040578935151, 0.23254021525227772, 0.03984245797761984},
				{0.767613364311535, 0.13563775039005432, 0.09674888529840572},
				{0.8320957451085623, 0.03436973682236952, 0.13353451806906522},
				{0.571115928787183, 0.32517972619651114, 0.10370434501630048},
				{0.2686278023365012, 0.10403866892998202},
			},
		},
		{
			name: "two people disagree, brass lamps on a black-lamp variant", only: 1,
			findings: []Finding{
				{Kind: SymptomIs, Subject: 0, Value: 1, Trust: seller},
				{Kind: SymptomIs, Subject: 0, Value: 0, Trust: 0.6},
				{Kind: SymptomIs, Subject: 1, Value: 1, Trust: seller},
				{Kind: SymptomIs, Subject: 2, Value: 0, Trust: seller},
				{Kind: PointOption, Subject: 3, Value: 0, Trust: photo},
			},
			variants:  []float64{0, 1, 0},
			histories: []float64{0.207719857278662, 0.4795689009990545, 0.31271124172228504},
			symptoms:  []float64{0.4620316827313969, 0.6390865845527467, 0.08349724356246674},
			points: [][]float64{
				{0.17201588714830007, 0.827984112851701},
				{0.19148294059075086, 0.39565432213896373, 0.3584668600314712, 0.05439587723881554},
				{0.7801007311689923, 0.15607644996099332, 0.06382281887001552},
				{0.18898853764994106, 0.40165412071574536, 0.4093573416343153},
				{0.4879743904936572, 0.35176464801584606, 0.1602609614904985},
				{0, 0},
			},
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			m := tankEngine()
			for v := range m.Variants {
				if row.only >= 0 && v != row.only {
					m.Variants[v].Made = 0
				}
			}
			p, err := InferFindings(m, row.findings, usual)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "variants", p.Variants(), row.variants)
			near(t, "histories", p.Histories(), row.histories)
			for i := range m.Points {
				near(t, m.Points[i].ID, p.Point(i), row.points[i])
			}
			for j := range m.Symptoms {
				near(t, m.Symptoms[j].ID, []float64{p.Symptom(j)}, row.symptoms[j:j+1])
			}
		})
	}
}

// near holds probabilities to 1e-12.
func near(t *testing.T, what string, got, want []float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d values, want %d", what, len(got), len(want))
	}
	for k := range want {
		if far(got[k], want[k], 1e-12) {
			t.Errorf("%s[%d]: %.16g, want %.16g", what, k, got[k], want[k])
		}
	}
}
