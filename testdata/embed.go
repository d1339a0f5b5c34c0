// Package testdata holds the example harnesses, which tests, the headless tool
// and the editor's welcome share. Start with [Files].
package testdata

import "embed"

// Files are the examples: files in the harness format, by name.
//
//go:embed *.loom.json
var Files embed.FS
