package belief

import (
	"errors"
	"testing"
)

// FuzzPosterior reads a small model and findings from bytes and holds all
// answers against plain enumeration.
func FuzzPosterior(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte("a pantograph, a roof and a reverser that may have been swapped"))
	for seed := range uint64(20) {
		d := newDice(seed)
		input := make([]byte, 300)
		for k := range input {
			input[k] = byte(d.n(256))
		}
		f.Add(input)
	}
	f.Fuzz(func(t *testing.T, input []byte) {
		d := &tape{input}
		m := randomModel(d)
		findings := randomFindings(d, m)
		if err := m.Check(); err != nil {
			t.Fatal(err)
		}
		if !agrees(t, m, findings) {
			var c *Contradiction
			if _, err := InferFindings(m, findings, usual); !errors.As(err, &c) {
				t.Fatalf("got %v", err)
			}
			return
		}
		p, _ := InferFindings(m, findings, usual)
		outcomesAgree(t, m, findings, p)
		c := p.Draw(50, uint64(len(input)))
		for i := range m.Points {
			for n, s := range c.State[i] {
				if has := m.Points[i].Applies[c.Variant[n]]; has != (s != NotApplicable) {
					t.Errorf("draw %d: point %d is in state %d, applies: %v", n, i, s, has)
				}
			}
		}
	})
}
