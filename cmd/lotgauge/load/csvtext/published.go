package csvtext

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// Published is the text of a file of rates as the European Central Bank
// publishes it: CSV, CSV in a ZIP archive, or XML, which is laid out like the
// other here, https://www.ecb.europa.eu/stats/policy_and_exchange_rates/euro_reference_exchange_rates/html/index.en.html.
// The error is a diag.List under the file's name.
func Published(file string, text []byte) ([]byte, error) {
	var err error
	switch trimmed := bytes.TrimSpace(bytes.TrimPrefix(text, mark)); {
	case bytes.HasPrefix(text, []byte("PK\x03\x04")):
		text, err = unzipped(text)
	case bytes.HasPrefix(trimmed, []byte("<")):
		text, err = fromXML(text)
	}
	if err != nil {
		return nil, diag.List{{Severity: diag.Error, Pos: diag.Pos{File: file}, Summary: err.Error(),
			Expected: "the European Central Bank's reference rates: CSV, ZIP with CSV, or XML"}}
	}
	return text, nil
}

// unzipped is the one CSV file of an archive.
func unzipped(archive []byte) ([]byte, error) {
	r, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	if err != nil {
		return nil, fmt.Errorf("this is no sound archive: %w", err)
	}
	files := slices.DeleteFunc(slices.Clone(r.File), func(f *zip.File) bool {
		return !strings.EqualFold(path.Ext(f.Name), ".csv")
	})
	if len(files) != 1 {
		return nil, fmt.Errorf("there are %d CSV files in the archive, not one", len(files))
	}
	in, err := files[0].Open()
	if err != nil {
		return nil, err
	}
	defer in.Close()
	text, err := io.ReadAll(io.LimitReader(in, prices.MaxRates+1)) // whatever the archive says of its size
	if err == nil && len(text) > prices.MaxRates {
		err = errors.New("the file in the archive is too large")
	}
	return text, err
}

// fromXML lays the bank's XML out as CSV: days are elements Cube with a time,
// and in each of them a Cube with currency and rate for every rate.
func fromXML(text []byte) ([]byte, error) {
	var days []string
	var names []string
	rates := map[string]map[string]string{}
	in := xml.NewDecoder(bytes.NewReader(text))
	for {
		token, err := in.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("this is no sound XML: %w", err)
		}
		cube, ok := token.(xml.StartElement)
		if !ok || cube.Name.Local != "Cube" {
			continue
		}
		if day := attribute(cube, "time"); day != "" {
			days = append(days, day)
			rates[day] = map[string]string{}
		}
		if name := attribute(cube, "currency"); name != "" && len(days) > 0 {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
			rates[days[len(days)-1]][name] = attribute(cube, "rate")
		}
		if len(names) > mostNames {
			return nil, fmt.Errorf("there are more than %d currencies in it", mostNames)
		}
	}
	if len(names) == 0 {
		return nil, errors.New("there are no rates in it")
	}
	return laidOut(days, names, rates), nil
}

// mostNames is more currencies than there are.
const mostNames = 500

// attribute is the value of an attribute, "" without it. What would be more
// than one cell of CSV becomes a cell that is none of any kind.
func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return strings.Map(func(r rune) rune {
				if strings.ContainsRune(",\n\r\"#", r) {
					return '?'
				}
				return r
			}, a.Value)
		}
	}
	return ""
}

// laidOut is CSV of rates by day and currency.
func laidOut(days, names []string, rates map[string]map[string]string) []byte {
	out := []byte("Date," + strings.Join(names, ",") + "\n")
	for _, day := range days {
		out = append(out, day...)
		for _, name := range names {
			cell := rates[day][name]
			if cell == "" {
				cell = "N/A"
			}
			out = append(out, ","+cell...)
		}
		out = append(out, '\n')
	}
	return out
}
