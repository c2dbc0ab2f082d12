package prices

import (
	"strings"
	"testing"

	"lotgauge/valuation/diag"
)

// Each map has one thing wrong with it, in the place and the words that follow.
// A text without a format line is put where it belongs in the least map.
func TestMapFaults(t *testing.T) {
	const first = "MAP.toml:1"
	for _, c := range []struct{ text, want string }{
		// The file as a whole.
		{"format = 2\n" + least[len("format = 1\n"):], first + ":10: format: found the number 2: expected the number 1"},
		{least[len("format = 1\n"):], "MAP.toml: format: missing: expected format = 1 in the first line"},
		{least + "[colums]\n", "MAP.toml:9:2: colums: unknown key: expected csv, values, skip or item"},
		{least + "pric = 3\n", "MAP.toml:9:1: columns.pric: unknown key: expected kind, currency, grade, lacking, postage, qty, source or note"},
		// How the file is written.
		{least + "[csv]\nseparator = \"\"", `MAP.toml:10:13: csv.separator: empty: expected one character such as ";"`},
		{least + "[csv]\nseparator = \"tab\"", `MAP.toml:10:13: csv.separator: "tab" is not one character: expected one character such as ";"`},
		{least + "[csv]\nseparator = 3", `MAP.toml:10:13: csv.separator: found the number 3: expected a quoted string, one character such as ";"; try "3"`},
		{least + "[csv]\nseparator = '\"'", `MAP.toml:9:1: csv.quote: the same as the separator: expected another character`},
		{least + "[csv]\nencoding = \"utf8\"", `MAP.toml:10:12: csv.encoding: found the text "utf8": expected "utf-8", "latin-1" or "windows-1252"; try "utf-8"`},
		{least + "[csv]\nskip_lines = -1", `MAP.toml:10:14: csv.skip_lines: found the number -1: expected a whole number from 0 to 1000`},
		{least + "[csv]\nheader = \"no\"", `MAP.toml:10:10: csv.header: found the text "no": expected true or false`},
		{least + "[csv]\ndecimal = \"1\"", `MAP.toml:10:11: csv.decimal: this is no mark of decimals: expected "." or ","`},
		{least + "[csv]\nthousands = \".\"", `MAP.toml:10:13: csv.thousands: the same as the mark of decimals: expected another character`},
		{least + "[csv]\nthousands = \"0\"", `MAP.toml:10:13: csv.thousands: this is no mark of thousands: expected "." or "," or " " or "'"`},
		// Dates.
		{least + "[csv]\ndate = \"dd.mm\"", `MAP.toml:10:8: csv.date: the year is 0 times in "dd.mm": expected a pattern of yyyy, mm and dd such as "dd.mm.yyyy"`},
		{least + "[csv]\ndate = \"dd.mm.yyyy dd\"", `MAP.toml:10:8: csv.date: the day is 2 times in "dd.mm.yyyy dd": expected a pattern of yyyy, mm and dd such as "dd.mm.yyyy"`},
		{least + "[csv]\ndate = \"dd.mm.jjjj\"", `MAP.toml:10:8: csv.date: "j" in it is neither yyyy, yy, mmm, mm, m, dd, d nor *: expected a pattern of yyyy, mm and dd such as "dd.mm.yyyy"`},
		{least + "[csv]\ndate = \"yyyy-mm-dd | *dd.mm.yy\"", `MAP.toml:10:8: csv.date: * is not at the end: expected a pattern of yyyy, mm and dd such as "dd.mm.yyyy"`},
		{least + "[csv]\nmonths = [\"Jan\"]", `MAP.toml:10:10: csv.months: 1 names of months: expected twelve, January first`},
		// Columns.
		{least + "qty = 0", "MAP.toml:9:7: columns.qty: found the number 0: expected a whole number from 1 to 1000"},
		{least + "qty = \"\"", "MAP.toml:9:7: columns.qty: empty: expected some text"},
		{"format = 1\n[csv]\nheader = false\n[columns]\ndate = 1\nprice = 2\nitem = 3\nkind = 4\ncurrency = \"Cur\"",
			"MAP.toml:9:12: columns.currency: a file without a header has no names: expected the number of the column, from 1"},
		{"format = 1\n[csv]\nheader = false\n[columns]\ndate = 1\nprice = 2\nitem = 3\nkind = 4\ncurrency = 5\n[[skip]]\nwhen = { \"5\" = 'x', Cur = 'x' }",
			`MAP.toml:11:27: skip[1].when.Cur: a file without a header has no names: expected the number of the column, such as "1"`},
		// What is not there.
		{"format = 1\n[defaults]\nkind = \"sold\"\n[columns]\ndate = 1\nprice = 2\nitem = 3",
			"MAP.toml: nothing says what the currency is: expected [columns] or [defaults] with currency"},
		{strings.Replace(least, "kind = \"sold\"\n", "", 1), "MAP.toml: nothing says what the kind is: expected [columns] or [defaults] with kind"},
		{strings.Replace(least, "date = \"date\"\n", "", 1), `MAP.toml: nothing says where the date is: expected [columns] with date = "…"`},
		{strings.Replace(least, "item = \"item\"\n", "", 1), "MAP.toml: nothing says what the item is: expected [[item]] with patterns, or [columns] with item"},
		// Values and defaults are texts of a price table.
		{least + "[values.kind]\nverkauft = \"solt\"", `MAP.toml:10:12: values.kind.verkauft: unknown kind "solt": expected sold or asked`},
		{least + "[values.currency]\n\"$\" = \"USS\"", `MAP.toml:10:7: values.currency."$": unknown currency "USS": expected an ISO 4217 code such as EUR`},
		{least + "[values.price]\n\"frei\" = \"0\"", `MAP.toml:10:10: values.price.frei: the price is 0: expected a price above 0; try to leave the row out if nothing was paid`},
		{least + "[values.grade]\ngut = \"sehr gut\"", `MAP.toml:10:7: values.grade.gut: "sehr gut" is not a grade: expected the id of a grade, such as good`},
		{strings.Replace(least, "\"EUR\"", "\"Euro\"", 1), `MAP.toml:4:12: defaults.currency: unknown currency "Euro": expected an ISO 4217 code such as EUR`},
		{strings.Replace(least, "[columns]", "qty = \"0\"\n[columns]", 1), `MAP.toml:5:7: defaults.qty: "0" is not a number of pieces: expected a whole number from 1`},
		{strings.Replace(least, "[columns]", "price = \"1\"\n[columns]", 1), `MAP.toml:5:1: defaults.price: unknown key: expected item, grade, lacking, postage, qty, source or note`},
		// Rules.
		{least + "[[skip]]\n", `MAP.toml:9:1: skip[1].when: missing: expected patterns by column such as { "Title" = '\bCE4\b' }`},
		{least + "[[skip]]\nwhen = { }", `MAP.toml:10:8: skip[1].when: no pattern: expected at least one, or every row would fit`},
		{least + "[[skip]]\nwhen = { a = '(' }", `MAP.toml:10:14: skip[1].when.a: missing closing ) in "(": expected a regular expression in single quotes such as '\bCE4\b'`},
		{least + "[[item]]\nwhen = { a = 'x' }", `MAP.toml:9:1: item[1]: the rule sets nothing: expected item, kind, grade or lacking`},
		{least + "[[item]]\nwhen = { a = '(x)' }\nitem = \"$2\"", `MAP.toml:11:8: item[1].item: there is no group 2: the patterns have 1: expected a text in which $1 is what the first group found`},
		{least + "[[item]]\nwhen = { a = '(?P<no>x)' }\nitem = \"${nr}\"", `MAP.toml:11:8: item[1].item: there is no group called "nr": expected a text in which $1 is what the first group found`},
		{least + "[[item]]\nwhen = { a = 'x' }\nitem = \"a b\"", `MAP.toml:11:8: item[1].item: "a b" is not an item: expected a text in which $1 is what the first group found`},
		{least + "[[item]]\nwhen = { a = 'x' }\nkind = \"lost\"", `MAP.toml:11:8: item[1].kind: unknown kind "lost": expected a text in which $1 is what the first group found`},
	} {
		doc := diag.ReadDocument("MAP.toml", strings.NewReader(c.text))
		if m := ReadMap(doc); m == nil {
			t.Error("no map")
		}
		wantFaults(t, doc.Diagnostics(), c.want)
	}
}

// Every fault of a map is reported, not the first alone.
func TestMapFaultsTogether(t *testing.T) {
	doc := diag.ReadDocument("MAP.toml", strings.NewReader(`format = 1
[csv]
decimal = ";;"
date = "x"
[columns]
price = 0
[[item]]
when = { Title = '[' }
item = "a/b/c"
`))
	ReadMap(doc)
	wantFaults(t, doc.Diagnostics(),
		`MAP.toml: nothing says where the date is: expected [columns] with date = "…"`,
		`MAP.toml: nothing says what the kind is: expected [columns] or [defaults] with kind`,
		`MAP.toml: nothing says what the currency is: expected [columns] or [defaults] with currency`,
		`MAP.toml:3:11: csv.decimal: ";;" is not one character: expected one character such as ";"`,
		`MAP.toml:4:8: csv.date: "x" in it is neither yyyy, yy, mmm, mm, m, dd, d nor *: expected a pattern of yyyy, mm and dd such as "dd.mm.yyyy"`,
		`MAP.toml:6:9: columns.price: found the number 0: expected a whole number from 1 to 1000`,
		`MAP.toml:8:18: item[1].when.Title: missing closing ] in "[": expected a regular expression in single quotes such as '\bCE4\b'`,
		`MAP.toml:9:8: item[1].item: "a/b/c" is not an item: expected a text in which $1 is what the first group found`)
}
