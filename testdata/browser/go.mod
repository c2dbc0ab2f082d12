module lotgauge/testdata/browser

go 1.26.8

require (
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	lotgauge v0.0.0
)

require (
	github.com/BurntSushi/toml v1.6.0 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
	golang.org/x/text v0.23.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
)

replace lotgauge => ../..
