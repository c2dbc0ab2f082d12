package page

import "lotgauge/valuation"

// A finding is one thing that the listing says or shows.
type finding struct {
	Title, Value, Note words
	By                 string
	Trust              string
	Now                string // the chance that it is so, given all
	Doubted            bool   // it is less likely than not
}

func (m *maker) findings() []finding {
	var out []finding
	for _, f := range m.a.Reading.Findings {
		x := finding{
			Title: name(f.Title), Value: name(f.Value), Note: sentence(f.Note), By: byWhat(f.By),
			Trust: percent(valuation.Share(f.Trust)), Now: percent(f.Now), Doubted: f.Now < 0.5,
		}
		if f.By == "hidden" { // it says nothing that could be relied on or doubted
			x.By, x.Trust, x.Now, x.Doubted = "–", "–", "sound "+x.Now, false
		}
		out = append(out, x)
	}
	return out
}

// A rule is one of the family's that holds.
type rule struct {
	Level string
	Tone  string
	Text  words
}

func (m *maker) rules() []rule {
	var out []rule
	for _, r := range m.a.Rules {
		x := rule{Level: capital(clean(r.Level)), Tone: "none", Text: sentence(r.Text)}
		switch r.Level {
		case "stop":
			x.Tone = "bad"
		case "caution":
			x.Tone = "mind"
		}
		out = append(out, x)
	}
	return out
}

// doubts are what is doubtful: at a certain place of the listing or the data,
// which nobody should bid without having read, or in general.
func (m *maker) doubts() (alerts, general []words) {
	for _, d := range m.a.Reading.Warnings {
		if d.Pos.File != "" {
			alerts = append(alerts, sentence(stopped(d.Error())))
		} else {
			general = append(general, sentence(capital(stopped(d.Error()))))
		}
	}
	return alerts, general
}

func (m *maker) mind() []words {
	return listed(m.a.Reading.Cautions, func(s string) words { return sentence(stopped(s)) })
}

func (m *maker) rests() []input {
	var out []input
	for _, x := range m.a.Reading.Rests {
		out = append(out, input{name(x.Name), sentence(x.Text)})
	}
	return out
}
