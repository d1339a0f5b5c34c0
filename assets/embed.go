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

// Guide is the guide for users: text with lines that name the pictures in
// [Pictures].
//
//go:embed guide.md
var Guide string

// Pictures are the pictures of the guide, by their names in it.
//
//go:embed pictures/guide-*.png
var Pictures embed.FS
