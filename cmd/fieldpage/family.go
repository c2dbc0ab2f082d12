package main

import (
	"fmt"
	"strings"
)

const dayFormat = "2006-01-02"

// familyView is what there is to look at on a model, for the page to draw.
type familyView struct {
	ID       string        `json:"id"`
	Title    string        `json:"title"`
	Areas    []areaView    `json:"areas"`
	Symptoms []symptomView `json:"symptoms"`
	Features []featureView `json:"features"`
	Variants []variantView `json:"variants"`
}

type areaView struct {
	Title  string      `json:"title"`
	Points []pointView `json:"points"`
}

type pointView struct {
	ID      string       `json:"id"`
	Title   string       `json:"title"`
	How     string       `json:"how"`
	Ask     string       `json:"ask"`
	See     []string     `json:"see"`
	Mind    []string     `json:"mind"` // what is to be minded of it in one's own hand
	Minutes float64      `json:"minutes"`
	Feature string       `json:"feature"` // id of the feature it shows, "" for none
	Measure *measureView `json:"measure"`
	States  []choiceView `json:"states"`
}

type measureView struct {
	What  string `json:"what"`
	Unit  string `json:"unit"`
	Right string `json:"right"` // what a sound one reads, "" where that may be anything
}

type choiceView struct {
	ID    string `json:"id"`
	Title string `json:"title"`
}

type symptomView struct {
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	Ask     string   `json:"ask"`
	See     []string `json:"see"`
	Minutes float64  `json:"minutes"`
}

type featureView struct {
	ID      string       `json:"id"`
	Title   string       `json:"title"`
	Tell    string       `json:"tell"`
	Options []choiceView `json:"options"`
}

type variantView struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Years string `json:"years"`
}

// language of what is asked: the page's.
const language = "en"

func (d *desk) family(id string) (any, error) {
	f, diags := d.library.Family(id)
	if err := diags.Err(); err != nil {
		return nil, err
	}
	v := familyView{ID: f.ID, Title: f.Title, Areas: []areaView{}, Symptoms: []symptomView{}, Features: []featureView{}, Variants: []variantView{}}
	for i := range f.Points {
		p := &f.Points[i]
		q := pointView{ID: p.ID, Title: p.Title, How: p.How, Ask: p.Ask[language], See: p.See, Mind: list(p.Minded()), Minutes: p.Minutes}
		if p.Feature >= 0 {
			q.Feature = f.Features[p.Feature].ID
		}
		if m := p.Measure; m != nil {
			q.Measure = &measureView{What: m.What, Unit: m.Unit, Right: p.Right()}
		}
		for _, s := range p.States {
			q.States = append(q.States, choiceView{ID: s.ID, Title: spoken(s.Title)})
		}
		v.area(p.Area, q)
	}
	for _, s := range f.Symptoms {
		v.Symptoms = append(v.Symptoms, symptomView{ID: s.ID, Title: s.Title, Ask: s.Ask[language], See: s.See, Minutes: s.Minutes})
	}
	for _, x := range f.Features {
		y := featureView{ID: x.ID, Title: x.Title, Tell: x.Tell}
		for _, o := range x.Options {
			y.Options = append(y.Options, choiceView{ID: o, Title: spoken(o)})
		}
		v.Features = append(v.Features, y)
	}
	for _, x := range f.Variants {
		v.Variants = append(v.Variants, variantView{ID: x.ID, Title: x.Title, Years: years(x.From, x.To)})
	}
	return &v, nil
}

// area puts a point into its area, in the order in which areas come first.
func (v *familyView) area(title string, p pointView) {
	for i := range v.Areas {
		if v.Areas[i].Title == title {
			v.Areas[i].Points = append(v.Areas[i].Points, p)
			return
		}
	}
	v.Areas = append(v.Areas, areaView{Title: title, Points: []pointView{p}})
}

// spoken turns an id into words: "wrong-type" is "wrong type".
func spoken(id string) string { return strings.ReplaceAll(id, "-", " ") }

// years are those in which a variant was made, "" where they are not known.
func years(from, to int) string {
	switch {
	case from == 0 && to == 0:
		return ""
	case to == 0:
		return fmt.Sprintf("from %d", from)
	case from == 0:
		return fmt.Sprintf("to %d", to)
	case from == to:
		return fmt.Sprint(from)
	}
	return fmt.Sprintf("%d\u2013%d", from, to)
}
