package table

import (
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

func money(s string) valuation.Money { return valuation.Money{Decimal: decimal.RequireFromString(s)} }

func cash(s string) *valuation.Money {
	m := money(s)
	return &m
}

func chance(f float64) *valuation.Share {
	s := valuation.Share(f)
	return &s
}

// auction is a full appraisal: everything that can be printed is in it.
func auction() *valuation.Appraisal {
	return &valuation.Appraisal{
		Format: 1, Title: "Red alpine electric, loft find, untested", Family: "pellworth-ce4",
		Date: "2026-03-14", Currency: "EUR", Draws: 20000, Seed: 1, Demonstration: true,
		Variants: []valuation.Chance{
			{ID: "6043", Title: "red, late roof, electronic reverser", Chance: 0.97},
			{ID: "6044", Title: "blue, late roof, relay", Chance: 0.03},
			{ID: "6045", Title: "green", Chance: 0},
		},
		Histories: []valuation.Chance{
			{ID: "cabinet", Title: "stood in a cabinet", Chance: 0.41},
			{ID: "tampered", Title: "rewired or patched by somebody", Chance: 0.59},
		},
		Points:   points(),
		Symptoms: []valuation.Chance{{ID: "no-movement", Title: "Does not move under power", Chance: 0.884}},
		Score: valuation.Scores{
			Condition:   valuation.Spread{Mean: 61.2, P10: 48, P90: 74.1},
			Originality: valuation.Spread{Mean: 97, P10: 91.25, P90: 100}, Completeness: valuation.Spread{Mean: 80, P10: 71, P90: 88},
			Coverage: 0.62,
		},
		Parts: parts(), Unpriced: []string{},
		Routes: []valuation.RouteWorth{
			{ID: "sell-restored", Mean: cash("84.90"), P10: cash("50.00"), P90: cash("121.00"), BreakEven: cash("50.00"), Chosen: chance(0.62)},
			{ID: "sell-as-found", Mean: cash("71.10"), P10: cash("40.00"), P90: cash("99.00"), BreakEven: cash("41.00"), Chosen: chance(0.38)},
			{ID: "part-out", Mean: cash("9.18"), P10: cash("-3.00"), P90: cash("22.40"), Chosen: chance(0.001)},
		},
		Worth:         &valuation.Worth{Mean: money("84.90"), SE: money("0.31"), P10: money("50.00"), P50: money("83.00"), P90: money("121.00")},
		AllPartsFound: 0.28, RepairShare: chance(0.42),
		Purchase:  purchase(),
		Questions: questions(),
		Rules: []valuation.FiredRule{
			{ID: "uneconomic", Level: "caution", Text: "Expected repairs are 42% of what it is worth restored: look for a better one."},
			{ID: "scarce", Level: "note", Text: "The black pantograph was made for three years only."},
		},
		Reading: reading(),
	}
}

func points() []valuation.PointBelief {
	return []valuation.PointBelief{
		{ID: "pantograph-front", Title: "Front pantograph", Applies: 1, ExpectedCost: cash("40.60"), States: []valuation.Chance{
			{ID: "sound", Chance: 0.01}, {ID: "wrong-type", Chance: 0.01}, {ID: "missing", Chance: 0.98}}},
		{ID: "pantograph-rear", Title: "Rear pantograph", Applies: 1, ExpectedCost: cash("11.17"), States: []valuation.Chance{
			{ID: "sound", Chance: 0.7}, {ID: "wrong-type", Chance: 0.2}, {ID: "missing", Chance: 0.1}}},
		{ID: "tyres", Title: "Traction tyres", Applies: 1, ExpectedCost: cash("1.60"), States: []valuation.Chance{
			{ID: "sound", Chance: 0.164}, {ID: "perished", Title: "perished or hard", Chance: 0.836}}},
		{ID: "decoder", Title: "Decoder", Applies: 0.03, ExpectedCost: cash("0.00"), States: []valuation.Chance{
			{ID: "sound", Chance: 0.027}, {ID: "dead", Chance: 0.003}}},
	}
}

func parts() []valuation.PartNeed {
	price := &valuation.PriceRange{Mean: money("41.20"), P10: money("29.00"), P50: money("39.60"), P90: money("55.80")}
	return []valuation.PartNeed{
		{ID: "tyre", Title: "Traction tyre", Needed: 1.672, Chance: 0.836, Observations: 1, FindChance: 0.996, Sightings: 31, SetAside: 2,
			Price: &valuation.PriceRange{Mean: money("0.88"), P10: money("0.61"), P50: money("0.84"), P90: money("1.10")}},
		{ID: "pantograph-black", Title: "Pantograph, black", Needed: 1.02, Chance: 0.98, Price: price, Observations: 3, Sightings: 4,
			FindChance: 0.31, Scarce: true, Ratio: chance(3.4), Cheapest: "Pantograph, grey"},
		{ID: "lamp", Title: "Lamp with a reflector of the first series, brass, with its wire", Needed: 0.004, Chance: 0.004, FindChance: 0.2, Scarce: true},
		{ID: "never", Title: "Never needed", Needed: 0},
	}
}

func purchase() valuation.Purchase {
	return valuation.Purchase{
		Sheet: "northquay", SheetTitle: "Northquay Rooms, bidding online", Currency: "GBP", Ask: cash("38.00"),
		Lines: []valuation.BillLine{
			{ID: "hammer", Title: "Hammer price", Amount: money("38.00")},
			{ID: "premium", Title: "Buyer's premium", Amount: money("9.50")},
			{ID: "customs", Title: "Customs value", Amount: money("47.50"), Memo: true},
			{ID: "post", Title: "Postage", Amount: money("9.50")},
			{ID: "import-vat", Title: "Import VAT", Amount: money("0.00")},
		},
		Total: cash("57.00"), Landed: cash("66.72"), LossChance: chance(0.22),
		BreakEvenBid: cash("50.00"), BreakEvenLanded: cash("84.10"), CarefulBid: cash("35.00"), CarefulLanded: cash("60.02"),
		CarefulLoss: chance(0.198), BreakEvenLoss: chance(0.47), Tolerance: 0.2,
	}
}

func questions() []valuation.Question {
	return []valuation.Question{
		{Kind: "point", ID: "interior", Title: "Interior", Worth: money("6.20"), Minutes: 1, See: []string{"photo", "hand"},
			Effects: []valuation.Effect{{Title: "sound", Chance: 0.78, Stop: cash("52.00")}, {Title: "incomplete", Chance: 0.16, Stop: cash("41.00")},
				{Title: "missing", Chance: 0.05}, {Title: "another's", Chance: 0.01, Stop: cash("40.00")}},
			How: "Look through the windows with a torch", Ask: map[string]string{"en": "Could you show the inside through the windows?", "de": "Bitte ein Bild durch die Fenster?"}},
		{Kind: "symptom", ID: "no-movement", Title: "Does not move under power", Worth: money("2.05"), Minutes: 2.5, See: []string{"track", "seller"}},
		{Kind: "point", ID: "coupler", Title: "Coupler", Worth: money("0.10"), Ask: map[string]string{"fr": "Les attelages, sont-ils complets ?"}},
		{Kind: "point", ID: "tyres", Title: "Traction tyres", Worth: money("0.09"), Minutes: 1, See: []string{"hand"}},
		{Kind: "point", ID: "wheels", Title: "Wheels", Worth: money("0.08")},
		{Kind: "point", ID: "box", Title: "Box", Worth: money("0.05")},
		{Kind: "point", ID: "roof", Title: "Roof", Worth: money("0.00")},
	}
}

func reading() valuation.Reading {
	return valuation.Reading{
		FamilyTitle: "Pellworth CE4 alpine electric, H0 three-rail", Verdict: valuation.Marginal,
		Steps: []valuation.Step{
			{ID: "sound", Title: "a sound one at the reference grade", Amount: money("143.20")},
			{ID: "wear", Title: "worn below that grade after the work", Amount: money("-31.52")},
			{ID: "parts", Title: "parts to buy", Amount: money("-17.28")},
			{ID: "selling", Title: "charges on selling it", Amount: money("-9.50")},
			{ID: "worth", Title: "what it is worth to you", Amount: money("84.90"), Sum: true},
			{ID: "unused", Title: "left over below the next bid", Amount: money("-0.80")},
			{ID: "premium", Title: "buyer's premium", Amount: money("-14.63")},
			{ID: "post", Title: "postage", Amount: money("-11.11")},
			{ID: "bid", Title: "the bid at which to stop", Amount: money("58.36"), Sum: true},
			{ID: "bid-in-sheet", Title: "which is a bid of", Amount: money("50.00"), Currency: "GBP", Sum: true},
		},
		Findings: []valuation.FindingLine{
			{Title: "Front pantograph", Value: "missing", By: "photo", Trust: 0.95, Note: "second picture", Now: 0.98},
			{Title: "Does not move under power", Value: "there", By: "seller", Trust: 0.75, Now: 0.884},
			{Title: "Interior", Value: "not shown", By: "hidden", Now: 1},
		},
		Unseen:   []string{"Traction tyres", "Rear pantograph", "Decoder", "Box and papers"},
		Cautions: []string{"Power an old model only from a tested, isolated supply within its rating"},
		Warnings: diag.List{{Severity: diag.Warning, Pos: diag.Pos{File: "data/rates.csv", Line: 3}, Summary: "rate is 9 days old", Expected: "one of the day"}},
		Models: []valuation.Model{
			{ID: "6043", Title: "red, late roof, electronic reverser", Chance: 0.97, Guide: true, Seen: make([]valuation.Sighting, 7), SetAside: 1,
				Price: valuation.PriceRange{Mean: money("143.40"), P10: money("98.00"), P50: money("141.00"), P90: money("190.50")}},
			{ID: "6044", Title: "blue, late roof, relay", Chance: 0.03, Seen: make([]valuation.Sighting, 1),
				Price: valuation.PriceRange{Mean: money("96.10"), P10: money("58.00"), P50: money("92.00"), P90: money("140.00")}},
			{ID: "6045", Title: "green", Chance: 0.001},
		},
		Rests: []valuation.Input{
			{Name: "Listing", Text: "loft-find.toml"}, {Name: "Exchange rate", Text: "1 GBP = 1.1574 EUR on 2026-03-12"},
		},
		On: time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC),
	}
}

// tooDear is a fixed price in the home currency, above what it is worth.
func tooDear() *valuation.Appraisal {
	a := auction()
	a.Demonstration, a.Rules, a.Reading.Warnings, a.Reading.Findings = false, nil, nil, nil
	a.Purchase.Fixed, a.Purchase.Currency, a.Purchase.CarefulBid = true, "EUR", nil
	a.Purchase.Ask, a.Purchase.Landed, a.Purchase.BreakEvenLanded = cash("60.00"), cash("60.00"), cash("50.00")
	a.Purchase.Total, a.Purchase.Lines = cash("60.00"), a.Purchase.Lines[:1]
	a.Purchase.Lines[0].Amount = money("60.00")
	a.Questions = nil
	a.Reading.Verdict = valuation.TooDear
	return a
}

// bargain is a fixed price that is careful.
func bargain() *valuation.Appraisal {
	a := tooDear()
	a.Purchase.Ask, a.Purchase.Landed, a.Purchase.Total = cash("31.00"), cash("31.00"), cash("31.00")
	a.Purchase.Lines[0].Amount = money("31.00")
	a.Purchase.CarefulBid, a.Purchase.CarefulLanded, a.Purchase.LossChance = cash("36.00"), cash("36.00"), chance(0)
	a.Reading.Verdict = valuation.Buy
	return a
}

// offLadder is a fixed price where no bid on the ladder pays.
func offLadder(v valuation.Verdict) *valuation.Appraisal {
	a := bargain()
	a.Reading.Verdict, a.Purchase.LossChance = v, chance(0.31)
	a.Purchase.BreakEvenBid, a.Purchase.BreakEvenLanded, a.Purchase.BreakEvenLoss = nil, nil, nil
	a.Purchase.CarefulBid, a.Purchase.CarefulLanded, a.Purchase.CarefulLoss = nil, nil, nil
	return a
}

// walkAway is one with a deal-breaker.
func walkAway() *valuation.Appraisal {
	a := auction()
	a.Reading.Verdict = valuation.WalkAway
	a.Reading.Reasons = []valuation.Reason{{Text: "zinc pest in the frame: it will go on crumbling.", Grounds: []valuation.Ground{{Title: "Frame", Chance: 0.9, States: []valuation.Chance{
		{ID: "cracked", Title: "cracked", Chance: 0.22}, {ID: "swollen", Title: "swollen", Chance: 0.68}}}}}, {Text: "no bid pays"}}
	a.Purchase.BreakEvenBid, a.Purchase.BreakEvenLanded, a.Purchase.BreakEvenLoss, a.Purchase.CarefulBid = nil, nil, nil, nil
	return a
}

// stopped is one that a rule stops though the figures would do.
func stopped() *valuation.Appraisal {
	a := auction()
	a.Reading.Verdict = valuation.WalkAway
	a.Reading.Reasons = []valuation.Reason{{Text: "repairs are more than half of what it is worth"}}
	a.Rules = append(a.Rules, valuation.FiredRule{ID: "uneconomic", Level: "stop", Text: "Repairs are more than half of what it is worth."})
	return a
}

// unpriced lacks a price, so that no figure is given.
func unpriced() *valuation.Appraisal {
	a := auction()
	a.Worth, a.RepairShare, a.Questions = nil, nil, []valuation.Question{}
	a.Routes[0] = valuation.RouteWorth{ID: "sell-restored", Missing: []string{"pantograph-black", "lamp"}}
	a.Points[0].ExpectedCost, a.Points[1].ExpectedCost = nil, nil
	a.Purchase = valuation.Purchase{
		Sheet: "northquay", SheetTitle: "Northquay Rooms, bidding online", Currency: "GBP", Ask: cash("38.00"),
		Lines: a.Purchase.Lines, Total: cash("57.00"), Landed: cash("66.72"),
	}
	a.Reading.Verdict, a.Reading.Steps = valuation.Unpriceable, nil
	a.Reading.Missing = []valuation.MissingPrice{
		{ID: "pantograph-black", Title: "Pantograph, black", Routes: []string{"sell-restored", "sell-running", "keep"},
			Row: "2026-03-14,pantograph-black,sold,,,PRICE,EUR,0.00,1,,", Key: `guide = "… EUR" of the part pantograph-black`},
		{ID: "lamp", Title: "Lamp"},
	}
	return a
}

// hostile is a listing that tries to reach the terminal, and text that does not
// fit anywhere.
func hostile() *valuation.Appraisal {
	a := auction()
	evil := "\x1b[2J\x1b]0;owned\x07red\u202egnp.exe\u009b31m\r\n<b>bold</b>\xff"
	long := "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft"
	wide := "赤い電気機関車の前のパンタグラフと屋根と箱と説明書と部品と赤い電気機関車の前のパンタグラフ"
	a.Title = evil
	a.Reading.FamilyTitle = long
	a.Variants[0].Title, a.Histories[0].Title = evil, wide
	a.Reading.Findings[0] = valuation.FindingLine{Title: wide, Value: evil, By: "photo", Trust: 1, Note: evil, Now: 1}
	a.Reading.Steps[1].Title = wide
	a.Reading.Steps[2].Title = evil
	a.Purchase.SheetTitle, a.Purchase.Lines[1].Title = evil, long
	a.Parts[0].Title, a.Parts[1].Cheapest, a.Parts[2].Title = wide, evil, long
	a.Questions[0].Title, a.Questions[0].How = evil, long+" "+long
	a.Rules[0].Text = evil + " " + long
	a.Reading.Cautions[0] = evil
	a.Reading.Warnings[0].Pos.File = evil
	a.Points[1].Title, a.Reading.Unseen[1] = wide, wide
	a.Reading.Models[0].Title, a.Reading.Models[1].Title = evil, wide
	a.Reading.Rests[0].Text, a.Reading.Rests[1].Name = evil, long
	a.Purchase.BreakEvenBid = cash("999999999999999.99")
	a.Purchase.BreakEvenLanded = cash("123456789012345.67")
	a.Parts[0].Price.Mean = money("999999999999999.99")
	return a
}

// long has more of everything than is shown in short, and texts without end in
// writings of all kinds.
func long() *valuation.Appraisal {
	a := auction()
	a.Title = strings.Repeat("לוקומוטיב אדום 🚂👩🏽‍🔧 ", 400)
	a.Reading.Findings[0].Note = strings.Repeat("e\u0301", 5000)
	a.Reading.Margin = &valuation.Margin{Amount: money("-27.44"), AtHammer: true, Price: money("61.64")}
	for range 50 {
		a.Questions = append(a.Questions, a.Questions[1])
		a.Parts = append(a.Parts, a.Parts[0])
		a.Points = append(a.Points, a.Points[1])
		a.Reading.Unseen = append(a.Reading.Unseen, a.Points[1].Title)
	}
	for i := range a.Reading.Unseen[4:] {
		p := a.Points[4+i]
		p.Title += strings.Repeat("i", i%7)
		a.Points[4+i], a.Reading.Unseen[4+i] = p, p.Title
	}
	return a
}

var fixtures = map[string]func() *valuation.Appraisal{
	"auction": auction, "too-dear": tooDear, "bargain": bargain, "walk-away": walkAway,
	"stopped": stopped, "unpriced": unpriced, "hostile": hostile,
	"long":  long,
	"empty": func() *valuation.Appraisal { return &valuation.Appraisal{} },
}
