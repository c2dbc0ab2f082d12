// Package pricedata is the cupboard of built-in prices, rates, charge sheets
// and settings, in the formats of DESIGN.md sections 3.2 to 3.4. All of it is
// invented and illustrative; README.md says how the numbers are shaped. The
// package holds data and no logic.
package pricedata

import "embed"

// Files holds settings.toml, prices.csv, rates.csv and the charge sheets,
// sheets/NAME.toml where NAME is the sheet's id.
//
//go:embed prices.csv rates.csv settings.toml sheets/*.toml
var Files embed.FS

// Today is the day on which the demonstration plays, that of its newest prices:
// much later there would be no rates to go by.
const Today = "2026-11-21"
