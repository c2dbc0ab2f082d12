// Package browser holds tests that look at the report page with a real browser.
// It is a module of its own, so that the driver is no dependency of lotgauge:
//
//	cd testdata/browser && go test ./...
//
// Without a Chromium on the machine the tests skip themselves, unless
// LOTGAUGE_BROWSER=required is set. With LOTGAUGE_SHOTS=DIR they leave pictures
// of what they saw in that folder, for a person to look at.
package browser
