// Package checklists is the cupboard of built-in families: one TOML file each,
// in the format of DESIGN.md section 3.1. Makers, railways and models are
// invented; the numbers are illustrative, from common practice among
// collectors, with no source. The package holds data and no logic.
package checklists

import "embed"

// Files holds the families, NAME.toml where NAME is the family's id.
//
//go:embed *.toml
var Files embed.FS
