package main

import (
	"bytes"

	"lotgauge/cmd/lotgauge/page"
	"lotgauge/valuation"
)

// page writes the report page. It is made in memory first: where anything fails,
// no file is begun.
func (opts *appraiseOptions) page(a *valuation.Appraisal) error {
	opts.aside(a)
	var b bytes.Buffer
	if err := page.Write(&b, a); err != nil {
		return err
	}
	file := opts.HTML
	if file == "-" {
		file = ""
	}
	return opts.deliverTo(file, b.Bytes())
}
