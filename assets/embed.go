// Package assets holds the data files that are built into the program.
//
// Start with [Kinds], the part kinds as JSON, one family per file; package
// catalog reads them.
package assets

import "embed"

// Kinds holds kinds/*.json. Each file is {"kinds": […]} with part kinds in the
// form that a harness file uses for its own.
//
//go:embed kinds/*.json
var Kinds embed.FS
