package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// imports is where the files to import are.
const imports = "../../testdata/import"

// saleroom makes the export of an invented saleroom, laid out as
// northquay-de.csv, and puts the import map for it beside: saleroom FILE LOTS.
// Of a hundred lots three were called off and one has no such day.
func saleroom(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: saleroom file lots")
	}
	lots, err := strconv.Atoi(args[1])
	ts.Check(err)
	file := ts.MkAbs(args[0])
	ts.Check(os.WriteFile(file, []byte(export(lots)), 0o666))
	by, err := os.ReadFile(filepath.Join(imports, "northquay-de.toml"))
	ts.Check(err)
	ts.Check(os.WriteFile(filepath.Join(filepath.Dir(file), "northquay-de.toml"), by, 0o666))
}

// export is the text of such a file, the same for the same number.
func export(lots int) string {
	random := rand.New(rand.NewPCG(20, 26))
	pick := func(of ...string) string { return of[random.IntN(len(of))] }
	var b strings.Builder
	b.WriteString("Northquay Rooms: verkaufte Lose\r\n\r\nLos;Auktionstag;Bezeichnung;Zustand;Stück;Zuschlag;Porto;Status\r\n")
	first := time.Date(2024, 1, 6, 0, 0, 0, 0, time.UTC)
	for i := range lots {
		day := first.AddDate(0, 0, i*750/lots).Format("02.01.2006")
		title := "Pellworth CE4 Alpenlok Nr. " + pick("6031", "6035", "6036", "6039", "6043", "6044") + pick("", ", ohne Karton")
		grade, pieces, cents, status := pick("1", "1-2", "2", "3", "4"), 1, 6000+random.IntN(12000), "verkauft"
		switch random.IntN(4) {
		case 0:
			title, grade, pieces, cents = "Haftreifen 10 mm", "", 10, 600+random.IntN(400)
		case 1:
			title, grade, cents = "\"Stromabnehmer; "+pick("schwarz", "grau")+"\"", "", 2000+random.IntN(3000)
		}
		switch i % 100 {
		case 17, 51, 83:
			status = pick("storniert", "zurückgezogen")
		case 66:
			day = "31.11.2025"
		case 70:
			cents *= 20 // over a thousand
		}
		fmt.Fprintf(&b, "%d;%s;%s;%s;%d;%s €;%s;%s\r\n", 5000+i, day, title, grade, pieces, german(cents), german(190+10*random.IntN(60)), status)
	}
	return b.String()
}

// german writes cents as 1.034,50.
func german(cents int) string {
	euros := strconv.Itoa(cents / 100)
	if n := len(euros); n > 3 {
		euros = euros[:n-3] + "." + euros[n-3:]
	}
	return fmt.Sprintf("%s,%02d", euros, cents%100)
}
