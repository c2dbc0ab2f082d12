package page

import (
	"bytes"
	"embed"
	"errors"
	"html/template"
	"io"
	"sync"

	"lotgauge/valuation"
)

//go:embed web
var web embed.FS

// report is the template of a page. It is parsed, when first asked for, from the
// embedded files, which never change; a mistake in them shows in the first test.
var report = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("report.html").ParseFS(web, "web/*.html", "web/*.css"))
})

// Write writes the report of an appraisal as one HTML file in UTF-8. Nothing is
// written where it fails: for want of an appraisal, or where w does.
func Write(w io.Writer, a *valuation.Appraisal) error {
	if a == nil {
		return errors.New("there is no appraisal to write a page of")
	}
	var page bytes.Buffer
	if err := report().Execute(&page, newView(a)); err != nil {
		return err
	}
	_, err := page.WriteTo(w)
	return err
}
