package prices_test

import (
	"fmt"
	"strings"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// An export with German numbers and dates, two rows of which are to be had: one
// of what was sold, one that the table has already.
func ExampleMap_Import() {
	doc := diag.ReadDocument("MAP.toml", strings.NewReader(`format = 1
[csv]
separator = ";"
decimal = ","
thousands = "."
date = "dd.mm.yyyy*"
[columns]
date = "Ende"
kind = "Status"
price = "Betrag"
note = "Titel"
[values.kind]
"verkauft" = "sold"
"läuft" = "asked"
[defaults]
currency = "EUR"
source = "online"
[[item]]
when = { Titel = '(?i)\bCE4\b.*\b(60\d\d)\b' }
item = "pellworth-ce4/$1"
`))
	m := prices.ReadMap(doc)
	if err := doc.Diagnostics().Err(); err != nil {
		fmt.Println(err)
		return
	}
	known, _ := prices.ReadTable("prices.csv", strings.NewReader("date,item,kind,price,currency,source\n"+
		"2026-01-17,pellworth-ce4/6032,asked,95,EUR,online\n"))
	out, faults := m.Import("export.csv", strings.NewReader(`Titel;Ende;Status;Betrag
Elektrolok CE4, Nr. 6043;14.03.2026 18:22;verkauft;1.234,50 €
CE4 rot 6032;17.01.2026 20:01;läuft;95,00
Bahnhofsuhr;17.01.2026 20:05;verkauft;12.50
`), known)
	if faults.HasErrors() {
		fmt.Println(faults)
		return
	}
	for _, r := range out.Rows {
		fmt.Println("new:", strings.Join(prices.FormatRow([]string{"date", "item", "kind", "price", "currency"}, r), ","))
	}
	fmt.Println("seen:", len(out.Seen))
	for _, f := range out.Failed {
		fmt.Printf("line %d: %s\n", f.Line, f.Reason)
	}
	// Output:
	// new: 2026-03-14,pellworth-ce4/6043,sold,1234.50,EUR
	// seen: 1
	// line 4: item: no pattern of the map fits; price: "12.50" is not a number with decimals after ',' and thousands grouped with '.'
}
