package page

import (
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// The appraisals below are written by hand, so that no change of the engine or
// of the demonstration data moves a golden file. Makers, models and amounts are
// invented.

func cash(text string) valuation.Money {
	return valuation.Money{Decimal: decimal.RequireFromString(text)}
}

func ptr[T any](x T) *T { return &x }

func cashPtr(text string) *valuation.Money { return ptr(cash(text)) }

func sharePtr(f float64) *valuation.Share { return ptr(valuation.Share(f)) }

func day(text string) time.Time {
	d, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return d
}

func priceRange(mean, p10, p50, p90 string) valuation.PriceRange {
	return valuation.PriceRange{Mean: cash(mean), P10: cash(p10), P50: cash(p50), P90: cash(p90)}
}

// hill is a spread of n bins from lo to hi with its top at peak.
func hill(lo, hi, peak float64, n int) []valuation.Bin {
	out, sum := make([]valuation.Bin, n), 0.0
	width := (hi - lo) / float64(n)
	for i := range out {
		from := lo + float64(float64(i)*width)
		middle := from + width/2
		high := (middle - lo) / (peak - lo)
		if middle > peak {
			high = (hi - middle) / (hi - peak)
		}
		out[i] = valuation.Bin{From: from, To: from + width, Share: high}
		sum += high
	}
	for i := range out {
		out[i].Share /= sum
	}
	return out
}

// rich is an auction lot with something of everything: the ask lies between
// the careful bid and the one at which to stop.
func rich() *valuation.Appraisal {
	return &valuation.Appraisal{
		Format: 1, Title: "Red alpine electric, loft find, untested", Family: "pellworth-ce4",
		Date: "2026-03-14", Currency: "EUR", Draws: 20000, Seed: 1, Demonstration: true,
		Variants: []valuation.Chance{
			{ID: "6043", Title: "red, late roof, electronic reverser", Chance: 0.97},
			{ID: "6036", Title: "red, early roof, relay", Chance: 0.022},
			{ID: "6032", Title: "red, early roof, disc motor", Chance: 0.005},
			{ID: "6047", Title: "orange, late roof", Chance: 0.003},
			{ID: "6031", Title: "green", Chance: 0},
		},
		Histories: []valuation.Chance{
			{ID: "cabinet", Title: "stood in a cabinet", Chance: 0.13},
			{ID: "layout", Title: "ran on a layout", Chance: 0.47},
			{ID: "tampered", Title: "rewired or patched by somebody", Chance: 0.4},
		},
		Points:   richPoints(),
		Symptoms: []valuation.Chance{{ID: "no-movement", Title: "Does not move under power", Chance: 0.85}},
		Score: valuation.Scores{
			Condition:    valuation.Spread{Mean: 66.2, P10: 59.1, P90: 73.4},
			Originality:  valuation.Spread{Mean: 97, P10: 93, P90: 100},
			Completeness: valuation.Spread{Mean: 86.6, P10: 82, P90: 92},
			Coverage:     0.354,
		},
		Parts: richParts(), Unpriced: []string{},
		Routes: []valuation.RouteWorth{
			{ID: "sell-restored", Mean: cashPtr("-8.94"), P10: cashPtr("-95.35"), P90: cashPtr("72.37"), Chosen: sharePtr(0.002)},
			{ID: "sell-running", Mean: cashPtr("65.50"), P10: cashPtr("8.26"), P90: cashPtr("116.72"), BreakEven: cashPtr("32.00"), Chosen: sharePtr(0.408)},
			{ID: "sell-as-found", Mean: cashPtr("67.58"), P10: cashPtr("30.48"), P90: cashPtr("104.55"), BreakEven: cashPtr("34.00"), Chosen: sharePtr(0.18)},
			{ID: "part-out", Mean: cashPtr("67.64"), P10: cashPtr("28.03"), P90: cashPtr("101.84"), BreakEven: cashPtr("34.00"), Chosen: sharePtr(0.41)},
		},
		Worth:         &valuation.Worth{Mean: cash("80.96"), SE: cash("0.21"), P10: cash("43.66"), P50: cash("78.91"), P90: cash("119.40")},
		AllPartsFound: 0.08, RepairShare: sharePtr(0.97),
		Purchase:  richPurchase(),
		Questions: richQuestions(),
		Rules: []valuation.FiredRule{
			{ID: "uneconomic", Level: "caution", Text: "Expected repairs are 97% of what it would bring restored: look for a better one."},
			{ID: "pair", Level: "note", Text: "One pantograph to replace often means buying two."},
		},
		Reading: richReading(),
	}
}

func richPoints() []valuation.PointBelief {
	chances := func(all ...valuation.Chance) []valuation.Chance { return all }
	of := func(id string, c valuation.Share) valuation.Chance {
		return valuation.Chance{ID: id, Title: id, Chance: c}
	}
	return []valuation.PointBelief{
		{ID: "pantograph-front", Title: "Front pantograph", Area: "roof", Applies: 1, ExpectedCost: cashPtr("57.69"),
			States: chances(of("sound", 0.1), of("bent", 0.03), valuation.Chance{ID: "wrong-type", Title: "wrong type", Chance: 0.01}, of("missing", 0.86)),
			Usual:  chances(of("sound", 0.66), of("bent", 0.2), of("wrong-type", 0.06), of("missing", 0.08))},
		{ID: "roof-conductors", Title: "Roof conductors", Area: "roof", Applies: 1, ExpectedCost: cashPtr("31.03"),
			States: chances(of("sound", 0.07), of("incomplete", 0.91), of("missing", 0.02)), Usual: chances(of("sound", 0.74))},
		{ID: "body", Title: "Body shell", Area: "body", Applies: 1, ExpectedCost: cashPtr("0.03"),
			States: chances(of("sound", 0.992), of("cracked", 0.004), of("exchanged", 0.004)), Usual: chances(of("sound", 0.76))},
		{ID: "interior", Title: "Cab interior and driver", Area: "body", Applies: 1, ExpectedCost: cashPtr("3.11"),
			States: chances(of("complete", 0.78), of("incomplete", 0.12), of("missing", 0.1)), Usual: chances(of("complete", 0.86))},
		{ID: "spring", Title: "Reverser spring", Area: "electrics", Applies: 0.027, ExpectedCost: cashPtr("0.01"),
			States: chances(of("sound", 0.02), of("slack", 0.007)), Usual: chances(of("sound", 0.58))},
		{ID: "lamps", Title: "Lamps", Area: "", Applies: 1, ExpectedCost: cashPtr("3.40"),
			States: chances(of("sound", 0.3), of("one-dead", 0.34), of("dead", 0.32), of("melted", 0.04)), Usual: chances(of("sound", 0.55))},
	}
}

func richParts() []valuation.PartNeed {
	return []valuation.PartNeed{
		{ID: "ce4-bulb", Title: "Screw-base bulb, 16 V", Needed: 1.07, Chance: 0.71, Price: ptr(priceRange("2.31", "1.46", "2.20", "3.29")),
			Observations: 5, SetAside: 1, Sightings: 5, FindChance: 0.93, Seen: []valuation.Sighting{
				{Line: 12, Day: day("2023-11-02"), Price: cash("1.90"), Weight: 0.44},
				{Line: 40, Day: day("2024-06-17"), Price: cash("2.10"), Weight: 0.55},
				{Line: 41, Day: day("2024-06-17"), Price: cash("19.00"), Asked: true, SetAside: true},
				{Line: 77, Day: day("2025-02-03"), Price: cash("2.60"), Asked: true, Weight: 0.34},
				{Line: 90, Day: day("2026-01-20"), Price: cash("2.45"), Weight: 0.95},
			}},
		{ID: "ce4-pantograph-black", Title: "Pantograph, black", Needed: 0.94, Chance: 0.87, Price: ptr(priceRange("66.18", "47.55", "64.00", "86.67")),
			Observations: 2, Sightings: 3, FindChance: 0.43, Scarce: true, Ratio: sharePtr(3.6), Cheapest: "Pantograph, grey",
			Seen: []valuation.Sighting{
				{Line: 20, Day: day("2024-03-01"), Price: cash("58.00"), Weight: 0.5},
				{Line: 66, Day: day("2025-08-30"), Price: cash("74.50"), Asked: true, Weight: 0.41},
			}},
		{ID: "ce4-interior", Title: "Cab interior with driver", Needed: 0.002, Chance: 0.002, Observations: 0, FindChance: 0.04},
		{ID: "ce4-frame", Title: "Frame", Needed: 0, Chance: 0, Price: ptr(priceRange("40.00", "30.00", "39.00", "52.00"))},
	}
}

func richPurchase() valuation.Purchase {
	line := func(id, title, amount string, memo bool) valuation.BillLine {
		return valuation.BillLine{ID: id, Title: title, Amount: cash(amount), Memo: memo}
	}
	return valuation.Purchase{
		Sheet: "northquay", SheetTitle: "Northquay Rooms, bidding online", Currency: "GBP", Tolerance: 0.2,
		Ask: cashPtr("38.00"), Total: cashPtr("60.90"), Landed: cashPtr("72.05"), LossChance: sharePtr(0.39),
		Lines: []valuation.BillLine{
			line("hammer", "Hammer price", "38.00", false), line("premium", "buyer's premium", "9.50", false),
			line("vat", "VAT on premium", "1.90", false), line("value", "customs value", "47.50", true),
			line("duty", "duty", "0.00", false), line("post", "packing and insured postage", "11.50", false),
		},
		BreakEvenBid: cashPtr("42.00"), BreakEvenLanded: cashPtr("78.20"), BreakEvenLoss: sharePtr(0.49),
		CarefulBid: cashPtr("28.00"), CarefulLanded: cashPtr("56.67"), CarefulLoss: sharePtr(0.19),
	}
}

func richQuestions() []valuation.Question {
	return []valuation.Question{
		{Kind: "pair", ID: "pantograph-front+spring", Title: "Front pantograph and reverser spring together", Worth: cash("1.12"), Minutes: 6},
		{Kind: "point", ID: "pantograph-front", Title: "Front pantograph", Worth: cash("0.76"), Minutes: 1,
			Effects: []valuation.Effect{{Title: "missing", Chance: 0.86, Stop: cashPtr("40.00")}, {Title: "sound", Chance: 0.1, Stop: cashPtr("65.00")}, {Title: "bent", Chance: 0.03}},
			How:     "Raise it: it must rise by itself and stay square", See: []string{"photo", "hand"},
			Ask: map[string]string{
				"fr": "Pourriez-vous montrer le pantographe avant de profil ?",
				"en": "Could you show the front pantograph from the side?",
				"de": "Könnten Sie den vorderen Stromabnehmer von der Seite zeigen?",
			}},
		{Kind: "symptom", ID: "no-movement", Title: "Does not move under power", Worth: cash("0.20"), See: []string{"track", "seller"}},
		{Kind: "variant", ID: "variant", Title: "Which catalogue number it is", Worth: cash("0.00")},
	}
}

func richReading() valuation.Reading {
	step := func(id, title, amount string, sum bool) valuation.Step {
		return valuation.Step{ID: id, Title: title, Amount: cash(amount), Sum: sum}
	}
	return valuation.Reading{
		FamilyTitle: "Pellworth CE4 alpine electric, H0 three-rail", Verdict: valuation.Marginal, On: day("2026-03-14"),
		Steps: []valuation.Step{
			step("sound", "a sound one at the reference grade", "204.28", false),
			step("wear", "worn below that grade after the work", "-31.35", false),
			step("apart", "what buyers price apart (box, repaint …)", "-26.52", false),
			step("parts", "parts to buy", "-8.45", false),
			step("instead", "kept or sold in parts instead", "-50.89", false),
			step("selling", "charges on selling it", "-6.11", false),
			step("worth", "what it is worth to you", "80.96", true),
			step("unused", "left over below the next bid", "-2.76", false),
			step("premium", "buyer's premium", "-12.24", false),
			step("post", "packing and insured postage", "-17.01", false),
			step("bid", "the bid at which to stop", "48.95", true),
			{ID: "bid-in-sheet", Title: "which is a bid of", Amount: cash("42.00"), Sum: true, Currency: "GBP"},
		},
		Findings: []valuation.FindingLine{
			{Title: "Catalogue number", Value: "6043", By: "seller", Trust: 0.8, Note: "read off the box lid", Now: 0.97},
			{Title: "Front pantograph", Value: "missing", By: "photo", Trust: 0.95, Note: "second picture", Now: 0.86},
			{Title: "Roof conductors", Value: "sound", By: "seller", Trust: 0.75, Now: 0.07},
			{Title: "Body shell", Value: "sound", By: "photo", Trust: 0.95, Now: 0.992},
			{Title: "Cab interior and driver", Value: "not shown", By: "hidden", Trust: 1, Note: "no picture into the cab", Now: 0.78},
		},
		Unseen:   []string{"Cab interior and driver", "Reverser spring", "Lamps"},
		Warnings: diag.List{{Severity: diag.Warning, Pos: diag.Pos{File: "prices.csv", Line: 41}, Summary: "a price was set aside"}},
		Cautions: []string{"This is an estimate for your own decision, not an appraisal in law."},
		Worths:   hill(8, 168, 74, 20),
		Models: []valuation.Model{
			{ID: "6043", Title: "red, late roof, electronic reverser", Chance: 0.97, Price: priceRange("204.28", "153.67", "200.39", "261.32"), Guide: true,
				Seen: []valuation.Sighting{
					{Line: 3, Day: day("2023-12-25"), Price: cash("183.42"), Counts: cash("195.12"), Grade: "excellent", Lacking: "box:worn", Weight: 0.46},
					{Line: 8, Day: day("2024-10-30"), Price: cash("141.00"), Asked: true, Weight: 0.31},
					{Line: 9, Day: day("2025-10-31"), Price: cash("92.10"), Counts: cash("187.00"), Grade: "good", Lacking: "box:missing inner-tray:missing", Weight: 0.88},
				}},
			{ID: "6032", Title: "red, early roof, disc motor", Chance: 0.005, Price: priceRange("145.00", "111.83", "145.84", "190.21"),
				Seen: []valuation.Sighting{{Line: 2, Day: day("2023-12-20"), Price: cash("66.00"), Weight: 0.4}}},
		},
		Rests: []valuation.Input{
			{Name: "Listing", Text: "rich.toml"}, {Name: "Prices", Text: "prices.csv, 1324 rows"}, {Name: "Draws", Text: "20000, seed 1"},
		},
	}
}

// walkAway is one with a deal-breaker and no bid that pays.
func walkAway() *valuation.Appraisal {
	a := rich()
	a.Title, a.Demonstration = "Orange express railcar, runs, swollen frame", false
	a.Worth = &valuation.Worth{Mean: cash("4.10"), SE: cash("0.09"), P10: cash("-6.00"), P50: cash("3.55"), P90: cash("16.20")}
	p := &a.Purchase
	p.BreakEvenBid, p.BreakEvenLanded, p.BreakEvenLoss = nil, nil, nil
	p.CarefulBid, p.CarefulLanded, p.CarefulLoss = nil, nil, nil
	p.LossChance = sharePtr(0.999)
	for i := range a.Routes {
		a.Routes[i].BreakEven = nil
	}
	r := &a.Reading
	r.Verdict = valuation.WalkAway
	r.Reasons = []valuation.Reason{{Text: "the frame has zinc pest, and cannot be cured.", Grounds: []valuation.Ground{{Title: "Frame", Chance: 0.9, States: []valuation.Chance{
		{ID: "cracked", Title: "cracked", Chance: 0.22}, {ID: "swollen", Title: "swollen", Chance: 0.68}}}}},
		{Text: "No bid pays: it is worth 4.10 EUR to you, less than the lowest bid lands at."}}
	r.Steps = r.Steps[:7]
	r.Steps[4].Amount, r.Steps[6].Amount = cash("-127.75"), cash("4.10")
	r.Worths = hill(-12, 24, 3, 18)
	a.Questions, a.Rules = nil, []valuation.FiredRule{{ID: "pest", Level: "stop", Text: "Zinc pest goes on for ever."}}
	return a
}

// unpriced is one of which a price is missing, so that it has no figure.
func unpriced() *valuation.Appraisal {
	a := rich()
	a.Title, a.Worth, a.RepairShare = "Blue express electric, price of the rotor unknown", nil, nil
	p := &a.Purchase
	p.BreakEvenBid, p.BreakEvenLanded, p.BreakEvenLoss, p.LossChance = nil, nil, nil, nil
	p.CarefulBid, p.CarefulLanded, p.CarefulLoss = nil, nil, nil
	a.Points[0].ExpectedCost, a.Parts[1].Price, a.Parts[1].Ratio = nil, nil, nil
	a.Unpriced = []string{"ce4-pantograph-black"}
	for i := range a.Routes[:2] {
		a.Routes[i] = valuation.RouteWorth{ID: a.Routes[i].ID, Missing: []string{"ce4-pantograph-black"}}
	}
	for i := range a.Routes {
		a.Routes[i].Chosen = nil
	}
	a.Questions = nil
	r := &a.Reading
	r.Verdict, r.Steps, r.Worths = valuation.Unpriceable, nil, nil
	r.Missing = []valuation.MissingPrice{{
		ID: "ce4-pantograph-black", Title: "Pantograph, black", Routes: []string{"sell-restored", "sell-running"},
		Row: "2026-03-14,ce4-pantograph-black,sold,,,PRICE,EUR,,1,,", Key: `guide of part "ce4-pantograph-black"`,
	}}
	return a
}
